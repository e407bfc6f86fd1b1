import type { Feature } from '../features/feature.ts';
import { cellAt } from '../grid/raster.ts';
import { traverse } from '../grid/traverse.ts';
import { distance, type Point } from '../math/plane.ts';
import { boxLeg } from './box-leg.ts';
import type { Leg } from './leg.ts';
import { isPathBlocked, type Planning } from './planning.ts';
import { openLeg, straightLeg } from './straight-leg.ts';

/** What is wider is no obstacle to box but ground to go round, metres. Common practice, no source. */
const WIDEST = 300;
/** Metres kept from the obstacle before and behind, and the steps by which the box is widened. */
const CLEAR = 30;
const WIDER_BY = 25;
/** A stretch before or behind the box that is shorter than this is part of it. */
const STUB = 40;

/** Metres along a→b between which closed ground lies; null when all of it is open. */
function closedBetween(planning: Planning, a: Point, b: Point): { from: number; to: number } | null {
  const { closed } = planning;
  const ends = [cellAt(closed, a[0], a[1]), cellAt(closed, b[0], b[1])];
  let walked = 0;
  let from = Number.NaN;
  let to = Number.NaN;
  traverse(closed, a[0], a[1], b[0], b[1], (cell, metres) => {
    if (closed.data[cell] !== 0 && !ends.includes(cell)) {
      if (Number.isNaN(from)) from = walked;
      to = walked + metres;
    }
    walked += metres;
  });
  return Number.isNaN(from) ? null : { from, to };
}

/**
 * A straight walk with the obstacle on it boxed: on a bearing to it, square out, along, square back, and on. One way for each side on
 * which a box of at most 300 m is open; none where the obstacle is wider than that.
 */
export function roundObstacle(planning: Planning, a: Point, b: Point, feature?: Feature): Leg[][] {
  const closed = closedBetween(planning, a, b);
  if (closed === null || closed.to - closed.from > WIDEST) return [];
  const d = distance(a, b);
  const at = (along: number): Point => [
    a[0] + ((b[0] - a[0]) * along) / d,
    a[1] + ((b[1] - a[1]) * along) / d,
  ];
  const near = closed.from - CLEAR < STUB ? 0 : closed.from - CLEAR;
  const far = closed.to + CLEAR > d - STUB ? d : closed.to + CLEAR;
  const before = near === 0 ? [] : [straightLeg('bearing', a, at(near))];
  const after = far === d ? [] : [openLeg(planning, at(far), b, feature)];
  const found: Leg[][] = [];
  for (const side of ['left', 'right'] as const) {
    for (let metres = WIDER_BY; metres <= WIDEST; metres += WIDER_BY) {
      const box = boxLeg(at(near), at(far), side, metres);
      if (isPathBlocked(planning, box.path)) continue;
      const confirmed = far === d && feature ? { ...box, toFeature: feature.id } : box;
      found.push([...before, confirmed, ...after]);
      break;
    }
  }
  return found;
}
