import quantile from '@stdlib/stats-base-dists-normal-quantile';
import { nextUniform, type Stream } from './random.ts';

/*
 * A normal variate by inversion, so that one uniform gives one normal and common random numbers stay common.
 * The middle 31/32 comes from a table with linear interpolation (error < 3e-5 SD), the tails but their last 1/64 from a finer one
 * (error < 4e-5 SD), the rest from the exact quantile.
 */
const STEPS = 4096;
const TAIL = 1 / 64;
const TABLE = new Float64Array(STEPS + 1);
for (let i = STEPS * TAIL - 1; i <= STEPS * (1 - TAIL) + 1; i++) TABLE[i] = quantile(i / STEPS, 0, 1);
const FINE = STEPS / TAIL;
const FAR_TAIL = TAIL * TAIL;
const LOWER = new Float64Array(STEPS + 2);
for (let i = STEPS * TAIL - 1; i <= STEPS + 1; i++) LOWER[i] = quantile(i / FINE, 0, 1);

/** Standard normal quantile of u in (0, 1). */
export function normalOf(u: number): number {
  if (u < TAIL) return lowerTail(u);
  if (u > 1 - TAIL) return -lowerTail(1 - u);
  const x = u * STEPS;
  const i = Math.floor(x);
  const low = TABLE[i]!;
  return low + (TABLE[i + 1]! - low) * (x - i);
}

function lowerTail(u: number): number {
  if (u < FAR_TAIL) return quantile(u, 0, 1);
  const x = u * FINE;
  const i = Math.floor(x);
  const low = LOWER[i]!;
  return low + (LOWER[i + 1]! - low) * (x - i);
}

/** Next standard normal variate of a stream. */
export function nextNormal(stream: Stream): number {
  return normalOf(nextUniform(stream));
}
