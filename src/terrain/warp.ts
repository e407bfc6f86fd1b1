import type { Georeference } from '../grid/raster.ts';
import type { DecodedGrid } from './decoded.ts';

/** Coordinates of the target's CRS to those of the source's. */
export type Transform = (x: number, y: number) => readonly [number, number];

/** Cells between two places that are transformed exactly. */
const BLOCK = 16;
/** Places in the source are kept to this part of a cell, so that a last-bit difference of a projection library cannot spread. */
const PART = 4096;
/** A target cell wider than this many source cells takes the mean of several samples. */
const WIDE = 1.25;
const MOST_SAMPLES = 16;

/**
 * Fills the cells of `target` that are still NaN from `source`: bilinear between source centres where target cells are as fine as the
 * source's or finer, the mean of k × k bilinear samples spread over the cell where they are coarser. Places are transformed exactly on
 * a lattice of 16 cells and linearly between (`placeError` measures what that costs). A missing source cell stays missing where it
 * weighs in a bilinear sample, and where half or more of a mean's samples are missing.
 */
export function warp(
  source: DecodedGrid,
  target: Georeference,
  transform: Transform | null,
  data: Float32Array,
): void {
  const { columns, rows } = target;
  const across = Math.ceil(columns / BLOCK) + 1;
  let top = nodes(source, target, transform, 0, across);
  for (let r0 = 0; r0 < rows; r0 += BLOCK) {
    const low = nodes(source, target, transform, r0 + BLOCK, across);
    for (let r = r0; r < Math.min(r0 + BLOCK, rows); r++) {
      const fy = (r + 0.5 - r0) / BLOCK;
      for (let b = 0; b + 1 < across; b++) {
        // source cells per target cell along a row and down a column, and the place of the row's start
        const i = 2 * b;
        const x0 = top[i]! + (low[i]! - top[i]!) * fy;
        const y0 = top[i + 1]! + (low[i + 1]! - top[i + 1]!) * fy;
        const xe = (top[i + 2]! + (low[i + 2]! - top[i + 2]!) * fy - x0) / BLOCK;
        const ye = (top[i + 3]! + (low[i + 3]! - top[i + 3]!) * fy - y0) / BLOCK;
        const xs = (low[i]! - top[i]!) / BLOCK;
        const ys = (low[i + 1]! - top[i + 1]!) / BLOCK;
        const wide = Math.max(Math.abs(xe), Math.abs(ye), Math.abs(xs), Math.abs(ys));
        const k = wide > WIDE ? Math.min(Math.ceil(wide - 0.01), MOST_SAMPLES) : 1;
        const end = Math.min((b + 1) * BLOCK, columns);
        for (let c = b * BLOCK, n = 0.5; c < end; c++, n++) {
          const to = r * columns + c;
          if (!Number.isNaN(data[to]!)) continue;
          const x = x0 + xe * n;
          const y = y0 + ye * n;
          data[to] = k === 1 ? bilinear(source, x, y) : mean(source, x, y, xe, ye, xs, ys, k);
        }
      }
    }
    top = low;
  }
}

/** Places of a row of lattice corners in source cells from the first centre, x and y in turn. */
function nodes(
  source: DecodedGrid,
  target: Georeference,
  transform: Transform | null,
  row: number,
  across: number,
): Float64Array {
  const places = new Float64Array(2 * across);
  const north = target.north - row * target.cell;
  for (let b = 0; b < across; b++) {
    const east = target.west + b * BLOCK * target.cell;
    const [x, y] = transform === null ? [east, north] : transform(east, north);
    places[2 * b] = Math.round(((x - source.west) / source.cellEast - 0.5) * PART) / PART;
    places[2 * b + 1] = Math.round(((source.north - y) / source.cellNorth - 0.5) * PART) / PART;
  }
  return places;
}

/** Height between four centres; the outer half cell takes the edge value. */
function bilinear({ columns, rows, data }: DecodedGrid, px: number, py: number): number {
  if (!(px >= -0.5 && py >= -0.5 && px <= columns - 0.5 && py <= rows - 0.5)) return Number.NaN;
  const x = px < 0 ? 0 : Math.min(px, columns - 1);
  const y = py < 0 ? 0 : Math.min(py, rows - 1);
  const c = Math.floor(x);
  const r = Math.floor(y);
  const fx = x - c;
  const fy = y - r;
  const i = r * columns + c;
  const right = fx > 0 ? 1 : 0;
  const down = fy > 0 ? columns : 0;
  const top = data[i]! + (data[i + right]! - data[i]!) * fx;
  const low = data[i + down]! + (data[i + down + right]! - data[i + down]!) * fx;
  return top + (low - top) * fy;
}

function mean(
  source: DecodedGrid,
  x: number,
  y: number,
  xe: number,
  ye: number,
  xs: number,
  ys: number,
  k: number,
): number {
  let sum = 0;
  let count = 0;
  for (let j = 0; j < k; j++) {
    const down = (j + 0.5) / k - 0.5;
    for (let i = 0; i < k; i++) {
      const along = (i + 0.5) / k - 0.5;
      const z = bilinear(source, x + xe * along + xs * down, y + ye * along + ys * down);
      if (Number.isNaN(z)) continue;
      sum += z;
      count++;
    }
  }
  return count * 2 > k * k ? sum / count : Number.NaN;
}

/** Largest distance in source cells, over the blocks, between an interpolated and an exactly transformed block middle. */
export function placeError(source: DecodedGrid, target: Georeference, transform: Transform): number {
  const across = Math.ceil(target.columns / BLOCK) + 1;
  const down = Math.ceil(target.rows / BLOCK) + 1;
  let worst = 0;
  const every = Math.max(1, Math.floor(down / 24));
  for (let r = 0; r + 1 < down; r += every) {
    const top = nodes(source, target, transform, r * BLOCK, across);
    const low = nodes(source, target, transform, (r + 1) * BLOCK, across);
    for (let b = 0; b + 1 < across; b += every) {
      const east = target.west + (b + 0.5) * BLOCK * target.cell;
      const north = target.north - (r + 0.5) * BLOCK * target.cell;
      const [x, y] = transform(east, north);
      const ex =
        (x - source.west) / source.cellEast -
        0.5 -
        (top[2 * b]! + top[2 * b + 2]! + low[2 * b]! + low[2 * b + 2]!) / 4;
      const ey =
        (source.north - y) / source.cellNorth -
        0.5 -
        (top[2 * b + 1]! + top[2 * b + 3]! + low[2 * b + 1]! + low[2 * b + 3]!) / 4;
      worst = Math.max(worst, Math.abs(ex), Math.abs(ey));
    }
  }
  return worst;
}
