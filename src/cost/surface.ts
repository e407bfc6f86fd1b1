import type { Georeference, Raster } from '../grid/raster.ts';

export { PACE_REACH, PACE_STEPS } from '../speed/pace-table.ts';

/**
 * What the raster search walks on. Seconds of an edge a→b of map length d =
 * d × pace((z_b − z_a)/d) × (factor_a + factor_b)/2; an edge that touches a factor of Infinity is closed.
 */
export interface CostSurface extends Georeference {
  readonly elevation: Float32Array;
  /**
   * Relative slowness of each cell against the off-path pace table: surface × wetness × conditions × (1 + β·markless/500).
   * Below 1 on a path; never 0; Infinity is a barrier.
   */
  readonly factor: Float32Array;
  /** Seconds per metre off path on a gradient g at index round((g + PACE_REACH) × PACE_STEPS), clamped. Length 2·REACH·STEPS + 1. */
  readonly pace: Float32Array;
}

/** One layer of the cost, kept to be shown and to be taken away in a test. */
export interface CostLayer {
  readonly name: 'slope-time' | 'surface' | 'wetness' | 'barrier' | 'markless';
  readonly raster: Raster;
  readonly unit: string;
}
