import { dateText } from '../../src/door/dates.ts';
import { FEATURE_KINDS, type FeatureKind } from '../../src/features/kinds.ts';
import type { Make } from '../theme/element.ts';
import type { Places } from './places.ts';
import type { Words } from './words.ts';
import type { Own } from './work.ts';

export interface OwnWishes {
  change(own: readonly Own[]): void;
  paste(text: string): void;
}

/** What the user says the map lacks: one row a thing, and a place to paste many. */
export function ownView(
  make: Make,
  own: readonly Own[],
  places: Places,
  words: Words,
  wishes: OwnWishes,
): HTMLElement[] {
  const t = words.texts;
  const pasted = make('textarea', {
    rows: 3,
    'aria-label': t.paste,
    placeholder: `${places.reference(middleOf(places))}, ${words.kind('boulder')}, …`,
  }) as HTMLTextAreaElement;
  const take = make('button', { type: 'button' }, t.pasteDo);
  take.addEventListener('click', () => {
    if (pasted.value.trim() !== '') wishes.paste(pasted.value);
  });
  const list = own.map((o, i) =>
    row(make, o, places, words, (changed) => {
      wishes.change(
        changed === null ? own.filter((_, k) => k !== i) : own.map((x, k) => (k === i ? changed : x)),
      );
    }),
  );
  return [
    make('p', { class: 'note' }, t.missingNote),
    list.length > 0 ? make('ul', { class: 'own', 'aria-label': t.missing }, ...list) : make('span', {}),
    make(
      'details',
      { class: 'folded' },
      make('summary', {}, t.paste),
      pasted,
      make('p', { class: 'tools' }, take),
    ),
  ];
}

function middleOf({ facts }: Places): readonly [number, number] {
  const { west, north, cell, columns, rows } = facts.grid;
  return [west + (columns * cell) / 2, north - (rows * cell) / 2];
}

function row(
  make: Make,
  own: Own,
  places: Places,
  words: Words,
  change: (own: Own | null) => void,
): HTMLElement {
  const t = words.texts;
  const kind = make(
    'select',
    {},
    ...FEATURE_KINDS.map((k) => make('option', { value: k, selected: k === own.kind }, words.kind(k))),
  ) as HTMLSelectElement;
  kind.addEventListener('change', () => change({ ...own, kind: kind.value as FeatureKind }));
  const name = make('input', { type: 'text', value: own.name, maxlength: 200 }) as HTMLInputElement;
  name.addEventListener('change', () => change({ ...own, name: name.value.trim() }));
  const sure = make('input', {
    type: 'number',
    min: 0,
    max: 100,
    value: own.exists === null ? '' : Math.round(own.exists * 100),
  }) as HTMLInputElement;
  sure.addEventListener('change', () => {
    const n = Number(sure.value);
    change({
      ...own,
      exists: sure.value === '' || !Number.isFinite(n) ? null : Math.max(0, Math.min(100, n)) / 100,
    });
  });
  const seen = make('input', { type: 'date', value: own.lastSeen ?? '' }) as HTMLInputElement;
  seen.addEventListener('change', () => change({ ...own, lastSeen: seen.value === '' ? null : seen.value }));
  const remove = make('button', { type: 'button', class: 'small' }, t.remove);
  remove.addEventListener('click', () => change(null));
  const label = (text: string, field: HTMLElement) => make('label', {}, text, field);
  return make(
    'li',
    { class: 'seal' },
    label(t.kind, kind),
    label(t.name, name),
    label(t.sure, sure),
    label(
      t.seen,
      make('span', {}, seen, ' ', dateText(own.lastSeen ?? '', words.language === 'Deutsch' ? 'de' : 'en')),
    ),
    make('span', { class: 'note' }, places.reference(own.points[0]!)),
    remove,
  );
}
