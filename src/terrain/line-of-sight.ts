import type { Raster } from '../grid/raster.ts';
import { length } from '../math/plane.ts';

/** Mean radius of the Earth, metres. */
export const EARTH_METRES = 6_371_000;

/** Share of the curvature that refraction takes back. 1/7 is what general viewshed tools use; 0.13 is Gauss's value in surveying. */
export const REFRACTION = 1 / 7;

/** Metres by which a point `distance` metres away sinks below the level plane: (1 − k)·d² / 2R. */
export function dropMetres(distance: number, refraction: number = REFRACTION): number {
  return ((1 - refraction) * distance * distance) / (2 * EARTH_METRES);
}

/** Distance in metres to the horizon from `height` metres above a smooth sphere: √(2·R·h / (1 − k)). */
export function horizonMetres(height: number, refraction: number = REFRACTION): number {
  return Math.sqrt((2 * EARTH_METRES * height) / (1 - refraction));
}

/** Ground that stands less than this above the ray does not hide, metres: two floats of one plane may differ so much. */
const TOUCH = 1e-3;

/**
 * Whether the line from an eye to a point clears the ground, with curvature and refraction. Heights are above ground. The ray is
 * tested where it crosses the lines of cell centres, with the height between the two nearest centres. False when either end is off
 * the map or has no height; missing ground in between hides nothing.
 */
export function sees(
  elevation: Raster,
  fromEast: number,
  fromNorth: number,
  fromHeightAboveGround: number,
  toEast: number,
  toNorth: number,
  toHeightAboveGround: number,
  refraction: number = REFRACTION,
): boolean {
  const { columns, rows, cell, west, north, data } = elevation;
  // in cells, counted from the centre of the north-west cell
  const ax = (fromEast - west) / cell - 0.5;
  const ay = (north - fromNorth) / cell - 0.5;
  const bx = (toEast - west) / cell - 0.5;
  const by = (north - toNorth) / cell - 0.5;
  const eye = groundAt(elevation, ax, ay) + fromHeightAboveGround;
  const distance = length(toEast - fromEast, toNorth - fromNorth);
  const bend = (1 - refraction) / (2 * EARTH_METRES);
  const end = groundAt(elevation, bx, by) + toHeightAboveGround - bend * distance * distance;
  if (!(eye - end < Number.POSITIVE_INFINITY)) return false;

  const dx = bx - ax;
  const dy = by - ay;
  const alongX = Math.abs(dx) >= Math.abs(dy);
  const major = alongX ? dx : dy;
  if (major === 0) return true;
  const start = alongX ? ax : ay;
  const minorStart = alongX ? ay : ax;
  const minorSlope = (alongX ? dy : dx) / major;
  const step = major > 0 ? 1 : -1;
  const lastMinor = alongX ? rows - 1 : columns - 1;
  const majorStride = alongX ? 1 : columns;
  const minorStride = alongX ? columns : 1;
  const stop = start + major;
  const rise = (end - eye) / major;
  const bendPerCell = (bend * distance * distance) / (major * major);
  for (let m = major > 0 ? Math.floor(start) + 1 : Math.ceil(start) - 1; (stop - m) * step > 0; m += step) {
    const gone = m - start;
    let n = minorStart + gone * minorSlope;
    n = n < 0 ? 0 : Math.min(n, lastMinor);
    const n0 = Math.floor(n);
    const i = m * majorStride + n0 * minorStride;
    const low = data[i]!;
    const ground = n === n0 ? low : low + (data[i + minorStride]! - low) * (n - n0);
    if (ground - bendPerCell * gone * gone > eye + rise * gone + TOUCH) return false;
  }
  return true;
}

/** Bilinear height at a place in cells from the first centre; the outer half cell takes the edge value; NaN off the map. */
function groundAt({ columns, rows, data }: Raster, x: number, y: number): number {
  if (!(x >= -0.5 && y >= -0.5 && x <= columns - 0.5 && y <= rows - 0.5)) return Number.NaN;
  const cx = x < 0 ? 0 : Math.min(x, columns - 1);
  const cy = y < 0 ? 0 : Math.min(y, rows - 1);
  const c = Math.floor(cx);
  const r = Math.floor(cy);
  const fx = cx - c;
  const fy = cy - r;
  const i = r * columns + c;
  const right = fx > 0 ? 1 : 0;
  const down = fy > 0 ? columns : 0;
  const top = data[i]! + (data[i + right]! - data[i]!) * fx;
  const low = data[i + down]! + (data[i + down + right]! - data[i + down]!) * fx;
  return top + (low - top) * fy;
}
