import { bearingTo, RADIANS, wrapHalf } from '../math/bearing.ts';
import type { Point } from '../math/plane.ts';
import { type Chained, chainedPoint } from './chainage.ts';

const LEAST_TURN = 45 * RADIANS;
/** Walls and fences bend over a few metres: directions are taken this far to either side, metres. */
const REACH = 15;

/** Where a wall or fence turns by more than 45° within some 15 m; other lines wind and have no corners. */
export function cornersOf(line: Chained): { along: number; at: Point }[] {
  if (line.family !== 'barrier') return [];
  const { points, along } = line;
  const corners: { along: number; at: Point; turn: number }[] = [];
  for (let i = 1; i < points.length - 1; i++) {
    const turn = turnAt(line, along[i]!);
    if (turn <= LEAST_TURN) continue;
    const before = corners[corners.length - 1];
    const corner = { along: along[i]!, at: points[i]!, turn };
    // a rounded corner of several vertices is one corner, where it is sharpest
    if (before === undefined || corner.along - before.along > 2 * REACH) corners.push(corner);
    else if (turn > before.turn) corners[corners.length - 1] = corner;
  }
  return corners;
}

function turnAt(line: Chained, along: number): number {
  const at = chainedPoint(line, along);
  const into = bearingTo(chainedPoint(line, along - REACH), at);
  const out = bearingTo(at, chainedPoint(line, along + REACH));
  return Math.abs(wrapHalf(out - into));
}

/** Turn in radians between two lines that meet end to end. */
export function turnBetween(a: Chained, aEnd: 'start' | 'end', b: Chained, bEnd: 'start' | 'end'): number {
  const away = (line: Chained, end: 'start' | 'end'): number => {
    const total = line.along[line.along.length - 1]!;
    const from = end === 'start' ? 0 : total;
    return bearingTo(chainedPoint(line, from), chainedPoint(line, end === 'start' ? REACH : total - REACH));
  };
  return Math.PI - Math.abs(wrapHalf(away(a, aEnd) - away(b, bEnd)));
}

export function isCorner(turn: number): boolean {
  return turn > LEAST_TURN;
}
