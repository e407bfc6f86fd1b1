import type { Candidate, Outcome } from '../../src/report/report.ts';
import { OUTCOMES } from '../../src/report/report.ts';
import { drawBadge } from '../theme/badge.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { drawOutcomes } from '../theme/outcome-mark.ts';
import { routeStyle } from '../theme/route-style.ts';

export interface HundredData {
  readonly candidates: readonly Candidate[];
  readonly unbeaten: readonly string[];
}

/** What is drawn in the order of drawing: found first, then the misses from mild to grave. */
const ORDER: readonly Outcome[] = [
  'cleanHit',
  'foundBySearch',
  'late',
  'nearMiss',
  'turnedBack',
  'falseFind',
  'lost',
];

/** Shares as 100 squares: largest remainders, so that they sum to 100 whatever the rounding. */
export function hundredSquares(outcomes: Readonly<Record<Outcome, number>>): Record<Outcome, number> {
  const total = OUTCOMES.reduce((sum, o) => sum + outcomes[o], 0);
  const exact = OUTCOMES.map((o) => (total > 0 ? (outcomes[o] / total) * 100 : 0));
  const counts = exact.map(Math.floor);
  let missing = total > 0 ? 100 - counts.reduce((a, b) => a + b, 0) : 0;
  const byRest = exact
    .map((_, i) => i)
    .sort((a, b) => exact[b]! - counts[b]! - (exact[a]! - counts[a]!) || a - b);
  for (const i of byRest) {
    if (missing-- <= 0) break;
    counts[i]!++;
  }
  return Object.fromEntries(OUTCOMES.map((o, i) => [o, counts[i]!])) as Record<Outcome, number>;
}

/** One array of 100 squares per route, grouped by how the attempts ended, the number beside. */
export function hundredArrays(data: HundredData, options: FigureOptions): SVGSVGElement {
  const { width, words = ENGLISH } = options;
  // A single route gets no panel of the whole width: its squares have a largest size.
  const columns = width < 500 ? 2 : data.candidates.length === 4 ? 4 : 3;
  const gutter = width >= 640 ? 22 : 18;
  const panel = (width - gutter * (columns - 1)) / columns;
  const side = Math.min(17, panel / 10);
  const head = 40;
  const rows = Math.ceil(data.candidates.length / columns);
  const tall = head + side * 10 + 26;
  const legendColumns = width >= 640 ? 4 : 2;
  const legendRows = Math.ceil(ORDER.length / legendColumns);
  const height = Math.round(rows * tall + legendRows * 24 + 4);
  const svg = startFigure(options, {
    height,
    kind: 'hundred',
    title: words.ofSuchParties,
    description: data.candidates
      .map((c) => words.findIt(c.letter, words.ofHundred(c.success.share)))
      .join('; '),
  });
  data.candidates.forEach((c, i) => {
    const g: Group = svg
      .append('g')
      .attr('class', routeStyle(c.letter).classes)
      .attr('data-route', c.letter)
      .attr(
        'transform',
        `translate(${px((i % columns) * (panel + gutter))},${px(Math.floor(i / columns) * tall)})`,
      );
    drawBadge(g, c.letter, { x: 11, y: 16 }, data.unbeaten.includes(c.id));
    const label = g.append('text').attr('x', 29).attr('y', 22);
    label
      .append('tspan')
      .attr('class', 'count')
      .text(String(Math.round(c.success.share * 100)));
    label.append('tspan').attr('class', 'quiet').text(words.afterCount);
    const counts = hundredSquares(c.outcomes);
    let n = 0;
    for (const outcome of ORDER) {
      const places = Array.from({ length: counts[outcome] }, (_, k) => ({
        x: (((n + k) % 10) + 0.5) * side,
        y: head + (Math.floor((n + k) / 10) + 0.5) * side,
      }));
      n += places.length;
      drawOutcomes(g, outcome, places, side);
    }
  });
  const legend: Group = svg
    .append('g')
    .attr('class', 'hue-1')
    .attr('transform', `translate(0,${px(rows * tall)})`);
  ORDER.forEach((outcome, i) => {
    const g = legend
      .append('g')
      .attr(
        'transform',
        `translate(${px((i % legendColumns) * (width / legendColumns) + 8)},${Math.floor(i / legendColumns) * 24 + 10})`,
      );
    drawOutcomes(g, outcome, [{ x: 0, y: 0 }], 15);
    g.append('text').attr('x', 15).attr('dy', '0.35em').text(words.outcomes[outcome]);
  });
  return finished(svg);
}
