import { NEAR_DROP } from '../charts/exposure.ts';
import { foundBy } from '../charts/found-by.ts';
import { foundByRows } from '../charts/found-by-rows.ts';
import { hasExposure, legStrip, sharedHeights } from '../charts/strip.ts';
import { timeSuccess } from '../charts/time-success.ts';
import type { Child, Make } from '../theme/element.ts';
import type { FigureOptions } from '../theme/figure.ts';
import { routeStyle } from '../theme/route-style.ts';
import { type Column, folded, table } from '../theme/table.ts';
import { duration, hundredText, hundredth, thousands } from '../theme/words.ts';
import type { Results } from './messages.ts';
import type { Places } from './places.ts';
import {
  bearingText,
  type Figures,
  heightText,
  legText,
  lengthText,
  ofHundred,
  shownNames,
  strategyText,
} from './said.ts';
import { filled, type Words } from './words.ts';

/** What the parts below the map are written from. */
export interface Showing {
  readonly make: Make;
  readonly results: Results;
  readonly places: Places;
  readonly words: Words;
  readonly how: Figures;
  /** px that a drawing has. */
  readonly width: number;
  /** Routes of a group are sealed: what was walked stays hidden. */
  readonly sealed: boolean;
}

export interface RouteWishes {
  edit(index: number): void;
  copy(index: number): void;
  remove(index: number): void;
  /** Index of the route that is being changed, or null. */
  readonly edited: number | null;
}

/** The routes one under the other, with the figures that decide and what can be done with each. */
export function routeList(showing: Showing, wishes: RouteWishes): HTMLElement {
  const { make, results, places, words, how } = showing;
  const { report, routes } = results;
  const t = words.texts;
  const names = shownNames(results, places, words);
  const button = (text: string, about: string, action: () => void) => {
    const b = make('button', { type: 'button', class: 'small', 'aria-label': `${text}: ${about}` }, text);
    b.addEventListener('click', action);
    return b;
  };
  return make(
    'ol',
    { class: 'routes', 'aria-label': t.routes },
    ...report.candidates.map((c, i) => {
      const drawn = c.origin === 'drawn';
      const hazard =
        c.hazard === 'not assessed'
          ? t.hazardNone
          : filled(t.hazard, { count: ofHundred(c.hazard.share, words) });
      const beside = filled(t.beside, {
        false: ofHundred(c.outcomes.falseFind, words),
        lost: ofHundred(c.outcomes.lost, words),
      });
      const count = make('span', { class: 'found' });
      const [before = '', after = ''] = words.verdict.ofHundred('\u0000').split('\u0000');
      count.append(before, make('b', {}, String(hundredth(c.success.share))), after);
      return make(
        'li',
        {
          'data-route': c.letter,
          class: `hue-${routeStyle(c.letter).hue}${wishes.edited === i ? ' edited' : ''}`,
        },
        letterOf(showing, i),
        make(
          'span',
          { class: 'what' },
          make('b', {}, names[i]!),
          make(
            'span',
            { class: 'how' },
            `${strategyText(routes[i]!, c, places, words)} · ${drawn ? t.drawn : t.found}`,
          ),
          !showing.sealed && make('span', { class: 'how' }, `${beside}, ${hazard}`),
          make(
            'span',
            { class: 'doing' },
            drawn
              ? button(t.editRoute, names[i]!, () => wishes.edit(i))
              : button(t.copyRoute, names[i]!, () => wishes.copy(i)),
            drawn && button(t.removeRoute, names[i]!, () => wishes.remove(i)),
          ),
        ),
        make(
          'span',
          { class: 'far' },
          `${lengthText(c.distanceMetres, how)}, ${filled(t.up, { metres: heightText(c.climbMetres, how) })}`,
        ),
        !showing.sealed && make('span', { class: 'long' }, duration(c.minutes.p50)),
        !showing.sealed && count,
      );
    }),
  );
}

function letterOf({ make, results }: Showing, i: number): HTMLElement {
  const c = results.report.candidates[i]!;
  const filledIn = results.report.unbeaten.includes(c.id) ? ' filled' : '';
  return make(
    'span',
    { class: `letter hue-${routeStyle(c.letter).hue}${filledIn}`, 'data-route': c.letter },
    c.letter,
  );
}

/** A drawing in its figure, with what is to be known of it. */
function drawn(showing: Showing, id: string, draw: (o: FigureOptions) => SVGSVGElement, ...below: Child[]) {
  const { make, width } = showing;
  return make(
    'figure',
    { class: 'drawing', id },
    draw({ document, width, id: `${id}-d`, words: showing.words.figures }),
    ...below,
  );
}

export function foundByFigure(showing: Showing): HTMLElement {
  const { make, results, words } = showing;
  const { candidates, unbeaten, limits } = results.report;
  return drawn(
    showing,
    'found-by-chart',
    (o) => foundBy({ candidates, unbeaten, limitMinutes: limits.minutes }, o),
    make('figcaption', {}, words.texts.foundByNote),
    folded(
      make,
      words.texts.asTable,
      table(
        make,
        words.texts.foundBy,
        [{ head: words.texts.tableWithin }, ...candidates.map((c) => ({ head: c.letter, figures: true }))],
        foundByRows(candidates),
      ),
    ),
  );
}

export function timeFigure(showing: Showing): HTMLElement {
  const { make, results, words } = showing;
  const { candidates, unbeaten } = results.report;
  return drawn(
    showing,
    'time-success-chart',
    (o) => timeSuccess({ candidates, unbeaten }, o),
    make('figcaption', {}, words.texts.timeSuccessNote),
    folded(make, words.texts.asTable, timeTable(showing)),
  );
}

function timeTable({ make, results, places, words }: Showing): HTMLElement {
  const { candidates, unbeaten } = results.report;
  const t = words.texts;
  const names = shownNames(results, places, words);
  const figures = [t.tableQuick, t.tableMiddle, t.tableSlow, t.tableFound, t.tableSampling];
  return table(
    make,
    t.timeSuccess,
    [{ head: t.tableRoute }, ...figures.map((head) => ({ head, figures: true })), { head: t.tableUnbeaten }],
    candidates.map((c, i) => [
      `${c.letter} ${names[i]}`,
      ...[c.minutes.p10, c.minutes.p50, c.minutes.p90].map((m) => String(Math.round(m))),
      hundredText(c.success.share),
      `${hundredText(c.success.low)}–${hundredText(c.success.high)}`,
      unbeaten.includes(c.id) ? t.tableYes : '',
    ]),
    { blocks: true },
  );
}

/** Every route drawn out leg by leg, with its table. */
export function legParts(showing: Showing): HTMLElement[] {
  const { make, results, places, words } = showing;
  const { report } = results;
  const names = shownNames(results, places, words);
  const fullMetres = Math.max(1, ...report.candidates.map((c) => c.distanceMetres));
  const heights = sharedHeights(report.candidates);
  const strips = report.candidates.map((c, i) => {
    const data = {
      candidate: c,
      features: report.features,
      fullMetres,
      heights,
      cloudBaseMetres: report.conditions.visibility.cloudBase,
    };
    return make(
      'article',
      { class: 'route-part', 'data-route': c.letter },
      make('h3', {}, letterOf(showing, i), make('span', {}, names[i]!)),
      ...(showing.sealed ? [] : [drawn(showing, `strip-${c.letter}`, (o) => legStrip(data, o))]),
      legTable(showing, i, words),
    );
  });
  const exposed = !showing.sealed && hasExposure(report.candidates, report.features);
  const note = make('p', { class: 'note' }, words.figures.dropNear(NEAR_DROP));
  return exposed ? [...strips, note] : strips;
}

function legTable({ make, results, places, how, sealed }: Showing, i: number, words: Words): HTMLElement {
  const { report, routes } = results;
  const c = report.candidates[i]!;
  const route = routes[i]!;
  const t = words.texts;
  const magnetic = report.norths !== null;
  const columns: Column[] = [
    { head: t.tableLeg },
    { head: t.tableDo },
    { head: t.tableGrid, figures: true },
    ...(magnetic ? [{ head: t.tableMagnetic, figures: true }] : []),
    { head: t.tableMetres, figures: true },
    { head: t.tableClimb, figures: true },
    { head: t.tablePaces, figures: true },
    { head: t.tableMinutes, figures: true },
    ...(sealed ? [] : [{ head: t.tableLost, figures: true }]),
  ];
  return table(
    make,
    `${t.legs}: ${c.letter}`,
    columns,
    c.legs.map((l, k) => [
      `${k + 1} ${words.figures.techniques[l.technique]}`,
      make('span', { class: 'meaning' }, make('b', {}, legText(route.legs[k]!, l, places, words, how))),
      bearingText(l.gridBearingDegrees, how),
      ...(magnetic
        ? [l.magneticBearingDegrees === null ? '–' : bearingText(l.magneticBearingDegrees, how)]
        : []),
      lengthText(l.distanceMetres, how),
      heightText(l.climbMetres, how),
      thousands(l.doublePaces),
      String(Math.round(l.minutes)),
      ...(sealed ? [] : [hundredText(l.lostHereShare)]),
    ]),
    { blocks: true },
  );
}
