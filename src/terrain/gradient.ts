import type { Raster } from '../grid/raster.ts';
import { degreesOf, RADIANS } from '../math/bearing.ts';
import { length } from '../math/plane.ts';
import { atan2 } from '../math/portable.ts';

/**
 * Gradient by Horn (1981), Hill shading and the reflectance map, Proc. IEEE 69(1):14–47, eq. 9; window a b c / d e f / g h i from the north:
 *   ∂z/∂E = ((c + 2f + i) − (a + 2d + g)) / 8s,   ∂z/∂N = ((a + 2b + c) − (g + 2h + i)) / 8s,   s = side of a cell, metres.
 * Rise per metre towards grid east and grid north. NaN on the outer ring and where any of the nine heights is missing.
 */
export function gradient(elevation: Raster): { eastward: Raster; northward: Raster } {
  const { columns, rows, cell, data } = elevation;
  const eastward = new Float32Array(columns * rows);
  const northward = new Float32Array(columns * rows);
  const scale = 1 / (8 * cell);
  eastward.fill(Number.NaN, 0, columns);
  northward.fill(Number.NaN, 0, columns);
  for (let r = 1; r < rows - 1; r++) {
    const start = r * columns;
    eastward[start] = northward[start] = Number.NaN;
    let i = start;
    // the window slides east: of each column of three heights, the weighted sum and the fall from north to south are made once
    let sumA = data[i - columns]! + 2 * data[i]! + data[i + columns]!;
    let fallA = data[i - columns]! - data[i + columns]!;
    i++;
    let sumB = data[i - columns]! + 2 * data[i]! + data[i + columns]!;
    let fallB = data[i - columns]! - data[i + columns]!;
    for (const end = start + columns - 1; i < end; i++) {
      const top = data[i + 1 - columns]!;
      const low = data[i + 1 + columns]!;
      const sumC = top + 2 * data[i + 1]! + low;
      const fallC = top - low;
      const east = sumC - sumA;
      const north = fallA + 2 * fallB + fallC;
      // 0, or NaN where any of the nine is missing: neither formula holds them all
      const whole = (east + north + sumB) * 0;
      eastward[i] = east * scale + whole;
      northward[i] = north * scale + whole;
      sumA = sumB;
      fallA = fallB;
      sumB = sumC;
      fallB = fallC;
    }
    eastward[i] = northward[i] = Number.NaN;
  }
  if (rows > 1) {
    eastward.fill(Number.NaN, (rows - 1) * columns);
    northward.fill(Number.NaN, (rows - 1) * columns);
  }
  return { eastward: { ...elevation, data: eastward }, northward: { ...elevation, data: northward } };
}

/** Tangent of the slope angle. */
export function slopeTangent(eastward: number, northward: number): number {
  return length(eastward, northward);
}

/** Slope angle in degrees, 0 level to 90. */
export function slopeDegrees(eastward: number, northward: number): number {
  return atan2(length(eastward, northward), 1) / RADIANS;
}

/** The way the ground faces, degrees clockwise from grid north: the direction of steepest descent. NaN on level ground. */
export function aspectDegrees(eastward: number, northward: number): number {
  if (eastward === 0 && northward === 0) return Number.NaN;
  return degreesOf(atan2(-eastward, -northward));
}
