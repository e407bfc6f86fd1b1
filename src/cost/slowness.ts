import { LEAST_SPEED } from '../conditions/factors.ts';

/**
 * Slowness against the off-path pace table: surface × wetness × the day. The product of all multipliers of speed never falls
 * below its bound.
 *
 * @param slow slowness of the surface against the table
 * @param speed the surface's own multiplier, 1 on a path
 * @param day multiplier of visibility, light and wind
 * @param wet slowness from wet ground, 1 on a path
 */
export function slownessOn(slow: number, speed: number, day: number, wet: number): number {
  return (slow * speed) / Math.max(LEAST_SPEED, (speed * day) / wet);
}
