import type { Raster } from '../../grid/raster.ts';
import { PACE_REACH, PACE_STEPS } from '../../speed/pace-table.ts';
import type { Relief } from '../../terrain/terrain.ts';

/** Seconds per metre on the slope of each cell, mean of straight up and straight down; to be looked at, the search takes each edge's own gradient. */
export function slopeTime(relief: Relief, pace: Float32Array): Raster {
  const east = relief.eastward.data;
  const north = relief.northward.data;
  const data = new Float32Array(east.length);
  // both ways on a slope, by its step in the table
  const reach = PACE_REACH * PACE_STEPS;
  const mean = Float32Array.from({ length: reach + 1 }, (_, k) => (pace[reach + k]! + pace[reach - k]!) / 2);
  for (let i = 0; i < data.length; i++) {
    const e = east[i]!;
    const n = north[i]!;
    const step = Math.sqrt(e * e + n * n) * PACE_STEPS + 0.5;
    data[i] = step < reach ? mean[Math.floor(step)]! : step >= reach ? mean[reach]! : Number.NaN;
  }
  return { ...relief.eastward, data };
}

/** The pace table of a world without slope: what is left when this layer is taken away. */
export function levelPace(pace: Float32Array): Float32Array {
  return new Float32Array(pace.length).fill(pace[PACE_REACH * PACE_STEPS]!);
}
