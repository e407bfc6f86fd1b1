import { surfaceFactors } from '../conditions/underfoot.ts';
import type { Surface } from '../terrain/terrain.ts';
import type { SpeedModel } from './model.ts';

/** Steps of the pace table per unit of gradient, and the gradient it reaches on either side. */
export const PACE_STEPS = 256;
export const PACE_REACH = 2;

/**
 * Seconds per map metre on a gradient g, at index round((g + PACE_REACH)·PACE_STEPS).
 * Beyond its critical gradient a party zig-zags [Kay A (2012) Route choice in hilly terrain. Geographical Analysis 44(2):87–108]:
 * it walks on the gentler gradient h that costs least per metre of height, so pace(g) = min over 0 < h ≤ g of pace(h)·g/h, up and down alike.
 */
export function paceTable(model: SpeedModel, onPath: boolean): Float32Array {
  const reach = PACE_REACH * PACE_STEPS;
  const table = new Float32Array(2 * reach + 1);
  table[reach] = 1 / model.metresPerSecond(0, onPath);
  for (const sign of [1, -1]) {
    let leastPerHeight = Number.POSITIVE_INFINITY;
    for (let i = 1; i <= reach; i++) {
      const g = i / PACE_STEPS;
      const direct = 1 / model.metresPerSecond(sign * g, onPath);
      leastPerHeight = Math.min(leastPerHeight, direct / g);
      table[reach + sign * i] = model.zigZags ? leastPerHeight * g : direct;
    }
  }
  return table;
}

/** Index of a gradient in a pace table, clamped to its ends. */
export function paceIndex(gradient: number): number {
  const i = Math.round((gradient + PACE_REACH) * PACE_STEPS);
  const last = 2 * PACE_REACH * PACE_STEPS;
  return i < 0 ? 0 : Math.min(i, last);
}

/**
 * How much slower a surface is than the model's off-path table (< 1 on a path).
 * A model with an off-path curve of its own has measured rough ground once: short grass is that curve, other ground is scaled
 * against grass, and the path is the ratio of its two curves on the level. A model without one is scaled by the surface alone.
 */
export function surfaceSlowness(model: SpeedModel, surface: Surface): number {
  if (!model.hasOffPath) return 1 / surfaceFactors(surface).speed;
  if (surface === 'path') return model.metresPerSecond(0, false) / model.metresPerSecond(0, true);
  return surfaceFactors('grass').speed / surfaceFactors(surface).speed;
}
