import { contours } from 'd3';
import type { Point } from '../../src/math/plane.ts';
import type { Ground } from './ground.ts';

export interface Contour {
  readonly height: number;
  /** Every fifth is drawn heavier and carries its height. */
  readonly heavy: boolean;
  readonly lines: readonly (readonly Point[])[];
}

/**
 * Contour lines in metres of the CRS. d3.contours gives the value of cell (i, j) the place (i + ½, j + ½), the centre of a cell whose
 * outer corner is (0, 0): its coordinates are counted from the raster's outer corner and need no half cell more.
 * Its rings also run along the raster's edge and around missing cells; those parts are no contours and are cut out.
 */
export function contourLines(ground: Ground, interval: number): Contour[] {
  const { heights, columns, rows, cell, west, north } = ground;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const h of heights) {
    if (h < low) low = h;
    if (h > high) high = h;
  }
  if (low > high) return [];
  const draw = contours().size([columns, rows]).smooth(true);
  const values = heights as unknown as number[];
  const found: Contour[] = [];
  for (let n = Math.ceil(low / interval); n * interval <= high; n++) {
    const height = n * interval;
    const lines: Point[][] = [];
    for (const polygon of draw.contour(values, height).coordinates) {
      for (const ring of polygon) {
        for (const part of openParts(ring, ground)) {
          lines.push(part.map(([x, y]) => [west + x * cell, north - y * cell] as const));
        }
      }
    }
    if (lines.length > 0) found.push({ height, heavy: n % 5 === 0, lines });
  }
  return found;
}

/** The stretches of a ring that lie between cells with a height, away from the raster's edge. */
function openParts(ring: readonly number[][], ground: Ground): (readonly [number, number])[][] {
  const { heights, columns, rows } = ground;
  const edge = (p: readonly number[]): boolean => {
    const [x, y] = p as [number, number];
    if (x < 0.5 || y < 0.5 || x > columns - 0.5 || y > rows - 0.5) return true;
    // A point on a line of centres belongs to the cells on both its sides.
    const c0 = Math.max(0, Math.ceil(x - 0.5) - 1);
    const r0 = Math.max(0, Math.ceil(y - 0.5) - 1);
    const c1 = Math.min(columns - 1, Math.floor(x - 0.5) + 1);
    const r1 = Math.min(rows - 1, Math.floor(y - 0.5) + 1);
    const missing = (c: number, r: number) => Number.isNaN(heights[r * columns + c]!);
    return missing(c0, r0) || missing(c1, r0) || missing(c0, r1) || missing(c1, r1);
  };
  const parts: (readonly [number, number])[][] = [];
  let part: (readonly [number, number])[] = [];
  for (const p of ring) {
    if (edge(p)) {
      if (part.length > 1) parts.push(part);
      part = [];
    } else part.push([p[0]!, p[1]!]);
  }
  if (part.length > 1) parts.push(part);
  // A ring that was cut somewhere starts and ends inside one stretch: join its two halves.
  const first = parts[0];
  const last = parts[parts.length - 1];
  if (parts.length > 1 && first && last && !edge(ring[0]!)) {
    parts[0] = [...last, ...first.slice(1)];
    parts.pop();
  }
  return parts;
}
