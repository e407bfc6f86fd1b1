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
  let r = 1;
  // two rows at a time share the heights between them
  for (; r < rows - 2; r += 2) twoRows(data, columns, r * columns, scale, eastward, northward);
  if (r < rows - 1) oneRow(data, columns, r * columns, scale, eastward, northward);
  if (rows > 1) {
    eastward.fill(Number.NaN, (rows - 1) * columns);
    northward.fill(Number.NaN, (rows - 1) * columns);
  }
  return { eastward: { ...elevation, data: eastward }, northward: { ...elevation, data: northward } };
}

function oneRow(
  data: Float32Array,
  columns: number,
  start: number,
  scale: number,
  eastward: Float32Array,
  northward: Float32Array,
): void {
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

/** As `oneRow`, for the row at `start` and the one below it: four heights of a column give the sums and falls of both. */
function twoRows(
  data: Float32Array,
  columns: number,
  start: number,
  scale: number,
  eastward: Float32Array,
  northward: Float32Array,
): void {
  const below = start + columns;
  eastward[start] = northward[start] = eastward[below] = northward[below] = Number.NaN;
  let i = start;
  const under = 2 * columns;
  let sumA = data[i - columns]! + 2 * data[i]! + data[i + columns]!;
  let sumA2 = data[i]! + 2 * data[i + columns]! + data[i + under]!;
  let fallA = data[i - columns]! - data[i + columns]!;
  let fallA2 = data[i]! - data[i + under]!;
  i++;
  let sumB = data[i - columns]! + 2 * data[i]! + data[i + columns]!;
  let sumB2 = data[i]! + 2 * data[i + columns]! + data[i + under]!;
  let fallB = data[i - columns]! - data[i + columns]!;
  let fallB2 = data[i]! - data[i + under]!;
  for (const end = start + columns - 1; i < end; i++) {
    const j = i + 1;
    const first = data[j - columns]!;
    const second = data[j]!;
    const third = data[j + columns]!;
    const fourth = data[j + under]!;
    const sumC = first + 2 * second + third;
    const fallC = first - third;
    const east = sumC - sumA;
    const north = fallA + 2 * fallB + fallC;
    const whole = (east + north + sumB) * 0;
    eastward[i] = east * scale + whole;
    northward[i] = north * scale + whole;
    const sumC2 = second + 2 * third + fourth;
    const fallC2 = second - fourth;
    const east2 = sumC2 - sumA2;
    const north2 = fallA2 + 2 * fallB2 + fallC2;
    const whole2 = (east2 + north2 + sumB2) * 0;
    eastward[i + columns] = east2 * scale + whole2;
    northward[i + columns] = north2 * scale + whole2;
    sumA = sumB;
    fallA = fallB;
    sumB = sumC;
    fallB = fallC;
    sumA2 = sumB2;
    fallA2 = fallB2;
    sumB2 = sumC2;
    fallB2 = fallC2;
  }
  eastward[i] = northward[i] = eastward[i + columns] = northward[i + columns] = Number.NaN;
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
