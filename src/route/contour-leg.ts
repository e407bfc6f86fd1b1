import type { MappedGround } from '../cost/mapped-ground.ts';
import { sample } from '../grid/raster.ts';
import { distance, length, type Point } from '../math/plane.ts';
import { heightAt } from './map-line.ts';

/** Metres of one step of the traced line, at least a cell's half. */
const STEP = 10;
/** Slope (rise per metre) below which height cannot be held by feel. */
const TOO_FLAT = 0.02;
/** The trace may wind this much longer than the straight line before it is given up. */
const WINDING = 3;

/**
 * The line that goes from a to b at a height changing evenly from that of a to that of b: what contouring means on the map. Null
 * where the ground is too flat, the map ends, or the contour leads elsewhere.
 */
export function contourLine(ground: MappedGround, a: Point, b: Point): Point[] | null {
  const whole = distance(a, b);
  const step = Math.max(STEP, ground.terrain.elevation.cell / 2);
  if (whole < 2 * step) return [a, b];
  const from = heightAt(ground, a);
  const to = heightAt(ground, b);
  const { eastward, northward } = ground.relief;
  const path: Point[] = [a];
  let [x, y] = a;
  let wayX = (b[0] - a[0]) / whole;
  let wayY = (b[1] - a[1]) / whole;
  const most = Math.ceil((WINDING * whole) / step);
  for (let i = 0; i < most; i++) {
    const left = length(b[0] - x, b[1] - y);
    if (left <= 1.5 * step) {
      path.push(b);
      return thinned(path);
    }
    const gx = sample(eastward, x, y);
    const gy = sample(northward, x, y);
    const slope = length(gx, gy);
    if (!(slope > TOO_FLAT)) return null;
    // Along the contour, whichever way keeps going as before.
    let tx = -gy / slope;
    let ty = gx / slope;
    if (tx * wayX + ty * wayY < 0) {
      tx = -tx;
      ty = -ty;
    }
    x += tx * step;
    y += ty * step;
    // Back to the wanted height, by the slope here; at most half a step, so that a cliff does not throw the line off.
    const wanted = from + (to - from) * Math.min(1, Math.max(0, 1 - length(b[0] - x, b[1] - y) / whole));
    const wrong = (wanted - sample(ground.terrain.elevation, x, y)) / slope;
    if (!Number.isFinite(wrong)) return null;
    const shift = Math.min(step / 2, Math.max(-step / 2, wrong));
    x += (gx / slope) * shift;
    y += (gy / slope) * shift;
    wayX = tx;
    wayY = ty;
    path.push([x, y]);
  }
  return null;
}

/** Every third vertex and the ends: a traced line needs no more. */
function thinned(path: readonly Point[]): Point[] {
  return path.filter((_, i) => i % 3 === 0 || i === path.length - 1);
}
