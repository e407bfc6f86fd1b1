import type { Point } from './plane.ts';
import { atan2 } from './portable.ts';

export const RADIANS = Math.PI / 180;
const TURN = 2 * Math.PI;

/** Bearing of b from a in radians clockwise from grid north, 0 ≤ β < 2π. Two equal points give 0. */
export function bearingTo(a: Point, b: Point): number {
  return wrapTurn(atan2(b[0] - a[0], b[1] - a[1]));
}

/** The same direction in [0, 2π). */
export function wrapTurn(angle: number): number {
  const a = angle % TURN;
  return a < 0 ? a + TURN : a;
}

/** The same difference of directions in [−π, π). */
export function wrapHalf(angle: number): number {
  const a = (angle + Math.PI) % TURN;
  return (a < 0 ? a + TURN : a) - Math.PI;
}

/** Degrees in [0, 360) for people. */
export function degreesOf(angle: number): number {
  const d = (angle / RADIANS) % 360;
  return d < 0 ? d + 360 : d;
}
