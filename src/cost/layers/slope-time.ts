import type { Raster } from '../../grid/raster.ts';
import { length } from '../../math/plane.ts';
import { PACE_REACH, PACE_STEPS, paceIndex } from '../../speed/pace-table.ts';
import type { Relief } from '../../terrain/terrain.ts';

/** Seconds per metre on the slope of each cell, mean of straight up and straight down; to be looked at, the search takes each edge's own gradient. */
export function slopeTime(relief: Relief, pace: Float32Array): Raster {
  const east = relief.eastward.data;
  const north = relief.northward.data;
  const data = new Float32Array(east.length);
  for (let i = 0; i < data.length; i++) {
    const tangent = length(east[i]!, north[i]!);
    data[i] = Number.isNaN(tangent)
      ? Number.NaN
      : (pace[paceIndex(tangent)]! + pace[paceIndex(-tangent)]!) / 2;
  }
  return { ...relief.eastward, data };
}

/** The pace table of a world without slope: what is left when this layer is taken away. */
export function levelPace(pace: Float32Array): Float32Array {
  return new Float32Array(pace.length).fill(pace[PACE_REACH * PACE_STEPS]!);
}
