import { YARD } from '../../src/door/measures.ts';
import type { Point } from '../../src/math/plane.ts';
import type { DrawnLeg, PlaceName } from '../../src/route/drawn.ts';
import type { Make } from '../theme/element.ts';
import { type Legs, waysOf, withMoved, withWay } from './drawing-board.ts';
import type { Understood } from './messages.ts';
import type { Places } from './places.ts';
import { wishedFigures } from './reader-wishes.ts';
import type { Words } from './words.ts';

export interface LegWishes {
  commit(legs: Legs): void;
  removePoint(i: number): void;
  rename(name: string): void;
  complain(error: unknown, text: string): void;
}

/** The legs of the route that is being changed, as rows of controls: all that the map does can be done here without it. */
export function legEditor(
  make: Make,
  known: Understood,
  start: Point,
  places: Places,
  words: Words,
  wishes: LegWishes,
): HTMLElement {
  const t = words.texts;
  const name = make('input', {
    type: 'text',
    value: known.name,
    'aria-label': t.routeName,
  }) as HTMLInputElement;
  name.addEventListener('change', () => wishes.rename(name.value));
  return make(
    'div',
    { class: 'editor' },
    make('p', { class: 'tools' }, make('label', {}, `${t.routeName} `, name)),
    make(
      'div',
      { class: 'table-room', tabindex: 0, role: 'region', 'aria-label': t.legsOf },
      make(
        'table',
        {},
        make('caption', {}, t.legsOf),
        make(
          'thead',
          {},
          make(
            'tr',
            {},
            ...[t.leg, t.how, t.to, ''].map((h) =>
              h === '' ? make('td', {}) : make('th', { scope: 'col' }, h),
            ),
          ),
        ),
        make(
          'tbody',
          {},
          ...known.legs.map((leg, i) => row(make, known, leg, i, start, places, words, wishes)),
        ),
      ),
    ),
  );
}

function row(
  make: Make,
  known: Understood,
  leg: DrawnLeg,
  i: number,
  start: Point,
  places: Places,
  words: Words,
  wishes: LegWishes,
): HTMLElement {
  const t = words.texts;
  const last = i === known.legs.length - 1;
  const ways = waysOf(known, start, i, places);
  const now = `${leg.technique} ${leg.technique === 'handrail' || leg.technique === 'aim-off' ? (leg.along ?? leg.line ?? '') : ''}`;
  const select = make(
    'select',
    { 'aria-label': `${t.leg} ${i + 1}: ${t.how}` },
    ...ways.map((way, k) => {
      const value = `${way.technique} ${way.line?.id ?? ''}`;
      const said =
        way.line === null
          ? words.techniques[way.technique]
          : `${words.techniques[way.technique]} ${places.called(way.line, words)}`;
      return make('option', { value: k, selected: value === now }, said);
    }),
  ) as HTMLSelectElement;
  select.addEventListener('change', () => wishes.commit(withWay(known, i, ways[Number(select.value)]!)));
  const remove = make(
    'button',
    { type: 'button', class: 'small', 'aria-label': `${t.removeLeg} ${i + 1}` },
    '×',
  );
  remove.addEventListener('click', () => wishes.removePoint(i));
  return make(
    'tr',
    {},
    make('th', { scope: 'row' }, String(i + 1)),
    make('td', {}, select, leg.technique === 'aim-off' && aimOff(make, known, leg, i, words, wishes)),
    make('td', {}, last ? words.leg.target : end(make, known, i, start, places, words, wishes)),
    make('td', {}, !last && remove),
  );
}

function end(
  make: Make,
  known: Understood,
  i: number,
  start: Point,
  places: Places,
  words: Words,
  wishes: LegWishes,
): HTMLElement {
  const t = words.texts;
  const input = make('input', {
    type: 'text',
    list: 'places',
    value: saidOf(known, i, places, words),
    'aria-label': `${t.leg} ${i + 1}: ${t.to}`,
  }) as HTMLInputElement;
  input.addEventListener('change', () => {
    try {
      const typed = places.typed(input.value);
      const to: PlaceName = typed.feature === undefined ? { at: typed.at! } : { feature: typed.feature };
      wishes.commit(withMoved(known, start, i, to, places));
    } catch (error) {
      wishes.complain(error, input.value);
    }
  });
  return input;
}

function saidOf(known: Understood, i: number, places: Places, words: Words): string {
  const to = known.legs[i]?.to;
  if (typeof to === 'object' && 'feature' in to) {
    const feature = places.feature(to.feature);
    return feature === undefined ? to.feature : places.shortly(feature);
  }
  const at = known.ends[i];
  return at === undefined ? words.leg.openPlace : places.reference(at);
}

/** Side and distance of an aim-off; empty leaves them to the engine. */
function aimOff(
  make: Make,
  known: Understood,
  leg: DrawnLeg,
  i: number,
  words: Words,
  wishes: LegWishes,
): HTMLElement {
  const t = words.texts;
  const side = make(
    'select',
    { 'aria-label': t.side },
    ...(['', 'left', 'right'] as const).map((s) =>
      make('option', { value: s, selected: (leg.side ?? '') === s }, s === '' ? '–' : t[s]),
    ),
  ) as HTMLSelectElement;
  const { imperial } = wishedFigures();
  const one = imperial ? YARD : 1;
  const off = make('input', {
    type: 'number',
    min: 0,
    max: Math.floor(2000 / one),
    value: leg.metres === undefined ? '' : Math.round(leg.metres / one),
    'aria-label': imperial ? t.yardsOff : t.metresOff,
    placeholder: imperial ? 'yd' : 'm',
  }) as HTMLInputElement;
  const metresOff = () => Math.round(Math.max(0, Number(off.value) || 0) * one * 10) / 10;
  const changed = () => {
    const { side: _, metres: __, ...rest } = leg;
    const legs = [...known.legs];
    legs[i] = {
      ...rest,
      ...(side.value === '' ? {} : { side: side.value as 'left' | 'right' }),
      ...(off.value === '' ? {} : { metres: metresOff() }),
    };
    wishes.commit(legs);
  };
  side.addEventListener('change', changed);
  off.addEventListener('change', changed);
  return make('span', {}, ' ', side, ' ', off);
}
