import type { ReportLeg } from '../../src/report/report.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { hundredText, hundredth } from '../theme/words.ts';

const SIDE = 7;
const TALL = 5;

/** Below each leg a square for every party of 100 whose loss begins there; blocks of neighbours are pushed apart. */
export function drawLostSquares(
  g: Group,
  legs: readonly ReportLeg[],
  spans: readonly (readonly [number, number])[],
  room: { top: number; low: number; high: number },
): void {
  const counts = legs.map((l) => hundredth(l.lostHereShare));
  const wides = counts.map((n) => Math.max(16, Math.ceil(n / TALL) * SIDE));
  const lefts = apart(
    spans.map(([from, to], i) => (from + to - wides[i]!) / 2),
    wides,
    6,
    room,
  );
  legs.forEach((l, i) => {
    const n = counts[i]!;
    const columns = Math.ceil(n / TALL);
    const middle = lefts[i]! + wides[i]! / 2;
    for (let k = 0; k < n; k++) {
      g.append('rect')
        .attr('class', 'lost-square')
        .attr('x', px(middle - (columns * SIDE) / 2 + Math.floor(k / TALL) * SIDE))
        .attr('y', px(room.top + (k % TALL) * SIDE))
        .attr('width', SIDE - 1)
        .attr('height', SIDE - 1);
    }
    g.append('text')
      .attr('class', 'small')
      .attr('x', px(middle))
      .attr('y', px(room.top + Math.min(TALL, n) * SIDE + 12))
      .attr('text-anchor', 'middle')
      .text(hundredText(l.lostHereShare));
  });
}

/** Left edges as near their wishes as gaps between neighbours allow, from the left, then back from the right edge. */
function apart(
  wishes: readonly number[],
  wides: readonly number[],
  gap: number,
  room: { low: number; high: number },
): number[] {
  const lefts: number[] = [];
  wishes.forEach((wish, i) => {
    const least = i === 0 ? room.low : lefts[i - 1]! + wides[i - 1]! + gap;
    lefts.push(Math.max(wish, least));
  });
  let limit = room.high;
  for (let i = lefts.length - 1; i >= 0; i--) {
    lefts[i] = Math.min(lefts[i]!, limit - wides[i]!);
    limit = lefts[i]! - gap;
  }
  return lefts;
}
