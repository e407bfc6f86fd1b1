import type { Doubt } from '../features/feature.ts';

/**
 * Sweep width over range of detection, W / Rd.
 * Koester RJ et al. (2014) Use of the visual range of detection to estimate effective sweep width for land search. Wilderness & Environmental Medicine 25(2):132–142.
 */
export const SWEEP_PER_RANGE: Readonly<Record<Doubt['visibility'], number>> = {
  high: 1.8,
  medium: 1.6,
  low: 1.1,
};

/** W in metres: as given with the feature, else from its range of detection. */
export function sweepWidth(doubt: Doubt, range: number): number {
  return doubt.sweepWidthMetres ?? SWEEP_PER_RANGE[doubt.visibility] * range;
}

/** W/2 in metres: a walked line finds the thing when it comes this near (definite-range law). */
export function halfWidth(doubt: Doubt, range: number): number {
  return sweepWidth(doubt, range) / 2;
}
