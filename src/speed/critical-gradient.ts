import { PACE_REACH } from './pace-table.ts';

const COARSE = 1 / 64;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The gradient on which a unit of height costs least, going up (1) or down (−1): beyond it a zig-zag is cheaper than the straight line.
 * `cost` is per map metre: 1/speed for time, C(i)·√(1 + i²) for energy per metre of path.
 * Kay A (2012) Route choice in hilly terrain. Geographical Analysis 44(2):87–108.
 * A cost that has no least in between (Naismith's) gives the steepest gradient looked at, `steepest`.
 */
export function criticalGradient(
  cost: (gradient: number) => number,
  direction: 1 | -1,
  steepest = PACE_REACH,
): { readonly gradient: number; readonly perHeight: number } {
  const perHeight = (g: number) => cost(direction * g) / g;
  let best = COARSE;
  for (let g = COARSE; g <= steepest; g += COARSE) if (perHeight(g) < perHeight(best)) best = g;
  let low = Math.max(COARSE / 2, best - COARSE);
  let high = Math.min(steepest, best + COARSE);
  // golden section: each round keeps the share .618 of the bracket
  for (let round = 0; round < 60; round++) {
    const a = high - GOLDEN * (high - low);
    const b = low + GOLDEN * (high - low);
    if (perHeight(a) < perHeight(b)) high = b;
    else low = a;
  }
  const gradient = (low + high) / 2;
  return { gradient: direction * gradient, perHeight: perHeight(gradient) };
}
