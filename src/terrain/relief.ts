import type { Raster } from '../grid/raster.ts';
import { length } from '../math/plane.ts';
import { ln } from '../math/portable.ts';
import { drainage } from './drainage.ts';
import { gradient } from './gradient.ts';
import type { Relief } from './terrain.ts';

/** tan β below which ground counts as flat for the wetness index. Common practice, no source for the value. */
export const FLAT_TANGENT = 0.001;

/** All that is derived from the elevation: gradient (Horn), upslope area (D8 on the filled surface), wetness index. */
export function deriveRelief(elevation: Raster): Relief {
  const { eastward, northward } = gradient(elevation);
  const { flow } = drainage(elevation);
  const { cell } = elevation;
  const data = new Float32Array(flow.data.length);
  for (let i = 0; i < data.length; i++) {
    data[i] = wetnessIndex(flow.data[i]! * cell, length(eastward.data[i]!, northward.data[i]!));
  }
  return { eastward, northward, flow, wetness: { ...elevation, data } };
}

/**
 * Topographic wetness index ln(a / tan β), Beven & Kirkby (1979), Hydrological Sciences Bulletin 24(1):43–69.
 * a: upslope area per metre of contour, m²/m; on a raster cells × cell² / cell. NaN where the slope is missing.
 */
export function wetnessIndex(areaPerMetre: number, tangent: number): number {
  return ln(areaPerMetre / Math.max(tangent, FLAT_TANGENT));
}
