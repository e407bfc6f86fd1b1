import type { Surface } from '../terrain/terrain.ts';
import type { GroundWetness } from './conditions.ts';

/** Multipliers of what one walks on: `wander` and `pace` are the two columns of ρ. */
export interface SurfaceFactors {
  readonly speed: number;
  readonly wander: number;
  readonly pace: number;
  readonly detection: number;
}

/** Common practice, no published source. */
const SURFACE_FACTORS: Readonly<Record<Surface, SurfaceFactors>> = {
  path: { speed: 1, wander: 1, pace: 1, detection: 1 },
  grass: { speed: 0.87, wander: 1, pace: 1.05, detection: 1 },
  heather: { speed: 0.65, wander: 1.2, pace: 1.2, detection: 0.8 },
  tussock: { speed: 0.55, wander: 1.4, pace: 1.4, detection: 0.7 },
  hag: { speed: 0.42, wander: 1.7, pace: 1.7, detection: 0.5 },
  boulder: { speed: 0.42, wander: 1.5, pace: 1.6, detection: 0.7 },
};

export function surfaceFactors(surface: Surface): SurfaceFactors {
  return SURFACE_FACTORS[surface];
}

/** tan of 10°, 20° and 30°, with the multipliers of walking straight across such a slope. */
const SIDE_TANGENT = [0, 0.17632698, 0.36397023, 0.57735027] as const;
const SIDE_SPEED = [1, 0.9, 0.75, 0.5] as const;
const SIDE_PACE = [1, 1.05, 1.15, 1.3] as const;

/**
 * Speed multiplier across a slope of the given tangent; `across` is |sin| of the angle to the fall line, 1 straight across.
 * Linear in the tangent between 0, 10, 20 and 30° and constant beyond.
 */
export function sideSlopeSpeed(tangent: number, across: number): number {
  return 1 + (interpolated(SIDE_SPEED, tangent) - 1) * across;
}

/** Multiplier of the pace scatter across a slope, as `sideSlopeSpeed`. */
export function sideSlopePace(tangent: number, across: number): number {
  return 1 + (interpolated(SIDE_PACE, tangent) - 1) * across;
}

function interpolated(column: readonly number[], tangent: number): number {
  if (tangent >= SIDE_TANGENT[3]) return column[3]!;
  const i = tangent < SIDE_TANGENT[1] ? 0 : tangent < SIDE_TANGENT[2] ? 1 : 2;
  const low = SIDE_TANGENT[i]!;
  const t = (tangent - low) / (SIDE_TANGENT[i + 1]! - low);
  return column[i]! + (column[i + 1]! - column[i]!) * t;
}

/** × the range at which a spring is made out: wet ground hides it. */
export const SPRING_DETECTION: Readonly<Record<GroundWetness, number>> = {
  dry: 1,
  normal: 1,
  wet: 0.8,
  saturated: 0.6,
  spate: 0.5,
};

/** Unmapped rivulets met per 100 m walked across the drainage. */
export const RIVULETS_PER_100: Readonly<Record<GroundWetness, number>> = {
  dry: 0,
  normal: 0.02,
  wet: 0.3,
  saturated: 1,
  spate: 2,
};

/** Share of those rivulets that look like a mapped stream. */
export const RIVULET_ALIKE_SHARE = 0.5;
