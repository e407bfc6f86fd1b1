import { GROUNDS, type GroundWetness } from '../../conditions/conditions.ts';
import { groundSpeed } from '../../conditions/factors.ts';
import type { Raster } from '../../grid/raster.ts';

/**
 * Hollows are up to one step wetter than the day (normal ground is wet there, wet ground saturated), rising between these values
 * of the topographic wetness index. Common practice, no published source.
 */
const DAMP_FROM = 8;
const DAMP_FULL = 12;
const PATH = 0;

/** Slowness of each cell from wet ground, 1 on a path: the day's ground, and a step more where the wetness index gathers water. */
export function wetnessLayer(index: Raster, cover: Raster<Uint8Array>, ground: GroundWetness): Raster {
  const wet = wetnessOf(ground);
  const data = new Float32Array(index.data.length);
  for (let i = 0; i < data.length; i++)
    data[i] = cover.data[i] === PATH ? 1 : wetSlowness(wet, index.data[i]!);
  return { ...index, data };
}

/** Slowness off paths on a day: where no water gathers, and in a hollow. */
export interface Wetness {
  readonly here: number;
  readonly hollow: number;
}

export function wetnessOf(ground: GroundWetness): Wetness {
  const step = GROUNDS.indexOf(ground);
  return {
    here: 1 / groundSpeed(ground),
    hollow: 1 / groundSpeed(GROUNDS[Math.min(step + 1, GROUNDS.length - 1)]!),
  };
}

/** Off a path, at a value of the wetness index; where the index is missing the day's ground holds. */
export function wetSlowness({ here, hollow }: Wetness, index: number): number {
  const share = (index - DAMP_FROM) / (DAMP_FULL - DAMP_FROM);
  return share > 0 ? here + (hollow - here) * Math.min(share, 1) : here;
}
