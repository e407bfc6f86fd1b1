import { sees } from '../terrain/line-of-sight.ts';
import type { Body } from './body.ts';

/** Height of eyes, metres. */
const EYES = 1.6;
/** From here on the lie of the ground decides whether a thing can be seen, metres. */
const ASK_GROUND = 30;

/** True when the step left a place behind: it lies no farther on than the end of the step. */
export function passed(b: Body, x: number, y: number): boolean {
  const dx = b.x - b.fromX;
  const dy = b.y - b.fromY;
  return (x - b.x) * dx + (y - b.y) * dy <= 0;
}

/** Metres from a place to the segment that the last step walked. */
export function distanceToStep(b: Body, x: number, y: number): number {
  const dx = b.x - b.fromX;
  const dy = b.y - b.fromY;
  const sq = dx * dx + dy * dy;
  let t = sq > 0 ? ((x - b.fromX) * dx + (y - b.fromY) * dy) / sq : 0;
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  const ex = b.fromX + dx * t - x;
  const ey = b.fromY + dy * t - y;
  return Math.sqrt(ex * ex + ey * ey);
}

/** Whether the ground lets a party see a place, 1 m above it, from where it stands. */
export function inSight(b: Body, x: number, y: number): boolean {
  return sees(b.world.elevation, b.x, b.y, EYES, x, y, 1);
}

/** The same for what is `metres` away, where the ground hides nothing that is near. */
export function inView(b: Body, x: number, y: number, metres: number): boolean {
  return metres <= ASK_GROUND || inSight(b, x, y);
}
