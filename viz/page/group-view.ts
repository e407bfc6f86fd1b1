import type { Make } from '../theme/element.ts';
import { table } from '../theme/table.ts';
import { hundredText } from '../theme/words.ts';
import type { Results } from './messages.ts';
import { filled, type Words } from './words.ts';
import type { Suggestion } from './work.ts';

export interface GroupWishes {
  readonly canSeal: boolean;
  seal(who: string, confidence: number): void;
  open(): void;
  save(suggestion: Suggestion): void;
}

/** Sealed routes of several people, and once opened, what each thought beside what is simulated. */
export function groupView(
  make: Make,
  suggestions: readonly Suggestion[],
  results: Results | null,
  words: Words,
  wishes: GroupWishes,
): HTMLElement[] {
  const t = words.texts;
  const who = make('input', { type: 'text', maxlength: 60, autocomplete: 'off' }) as HTMLInputElement;
  const sure = make('input', { type: 'number', min: 0, max: 100, value: 50 }) as HTMLInputElement;
  const seal = make('button', { type: 'button', disabled: !wishes.canSeal }, t.seal);
  seal.addEventListener('click', () => {
    if (who.value.trim() === '') return who.focus();
    wishes.seal(who.value.trim(), Math.max(0, Math.min(100, Math.round(Number(sure.value) || 0))));
  });
  const sealed = suggestions.filter((s) => !s.opened);
  const opened = suggestions.filter((s) => s.opened);
  const parts: HTMLElement[] = [
    make('p', { class: 'note' }, t.groupNote),
    make(
      'div',
      { class: 'seal' },
      make('label', {}, t.who, who),
      make('label', {}, t.confidence, sure),
      seal,
    ),
  ];
  if (sealed.length > 0) {
    const open = make('button', { type: 'button' }, t.openAll);
    open.addEventListener('click', () => wishes.open());
    const save = make('button', { type: 'button' }, t.saveSuggestion);
    save.addEventListener('click', () => wishes.save(sealed[sealed.length - 1]!));
    const text = filled(t.sealed, { n: sealed.length, who: sealed.map((s) => s.who).join(', ') });
    parts.push(make('p', { class: 'tools' }, make('span', {}, text), open, save));
  }
  if (opened.length > 0 && results !== null) {
    const rows = opened.map((s) => {
      const c = results.report.candidates.find((x) => x.name === s.route.name);
      return [
        `${c?.letter ?? '–'} ${s.who}`,
        String(s.confidence),
        c === undefined ? '–' : hundredText(c.success.share),
      ];
    });
    parts.push(
      table(
        make,
        t.openedHead,
        [{ head: t.who }, { head: t.thinks, figures: true }, { head: t.simulated, figures: true }],
        rows,
      ),
    );
  }
  return parts;
}
