import { columnOf, type Raster, rowOf } from '../grid/raster.ts';
import { EARTH_METRES, REFRACTION } from './line-of-sight.ts';

/**
 * Which cells can be seen from the centre of the cell that holds a point: 1 seen, 0 hidden, out of range or without a height.
 * `eyeHeight` above the ground here, `targetHeight` above the ground there, `range` in metres (Infinity for the whole map).
 *
 * Wang, Robinson & White (2000), Generating viewsheds without using sightlines, Photogrammetric Engineering & Remote Sensing
 * 66(1):87–90: outward from the eye, each cell gets the least height h at which it could be seen, extrapolated from the two cells
 * between which its ray leaves the ring inside: for offsets i ≤ j from the eye, with h relative to the eye,
 *   h(i, j) = (i·h_a + (j − i)·h_b) / (j − 1),   a the diagonal neighbour inwards, b the straight one;
 * then h = max(h, height). Curvature and refraction lower each height by (1 − k)·d² / 2R first.
 */
export function viewshed(
  elevation: Raster,
  east: number,
  north: number,
  eyeHeight: number,
  targetHeight: number,
  range: number,
  refraction: number = REFRACTION,
): Uint8Array {
  const { columns, rows, cell, data } = elevation;
  const seen = new Uint8Array(columns * rows);
  const c0 = columnOf(elevation, east);
  const r0 = rowOf(elevation, north);
  if (!(c0 >= 0 && r0 >= 0 && c0 < columns && r0 < rows)) return seen;
  const eye = data[r0 * columns + c0]! + eyeHeight;
  if (Number.isNaN(eye)) return seen;

  const bend = ((1 - refraction) * cell * cell) / (2 * EARTH_METRES);
  const reach = Math.min(range / cell, columns + rows);
  const reach2 = reach * reach;
  // least visible heights, relative to the eye, of the line of cells before and of this one
  let before = new Float64Array(columns);
  let line = new Float64Array(columns);
  const level = new Float64Array(columns);

  for (let x = 1; c0 + x < columns && x <= reach; x++) {
    level[c0 + x] = settle(
      r0 * columns + c0 + x,
      x * x,
      x === 1 ? LOWEST : (level[c0 + x - 1]! * x) / (x - 1),
    );
  }
  for (let x = 1; c0 - x >= 0 && x <= reach; x++) {
    level[c0 - x] = settle(
      r0 * columns + c0 - x,
      x * x,
      x === 1 ? LOWEST : (level[c0 - x + 1]! * x) / (x - 1),
    );
  }
  seen[r0 * columns + c0] = 1;

  for (let side = -1; side <= 1; side += 2) {
    before.set(level);
    for (let y = 1; y <= reach; y++) {
      const r = r0 + side * y;
      if (r < 0 || r >= rows) break;
      const from = r * columns;
      line[c0] = settle(from + c0, y * y, y === 1 ? LOWEST : (before[c0]! * y) / (y - 1));
      const width = Math.floor(Math.sqrt(reach2 - y * y));
      sweep(from, y, 1, Math.min(width, columns - 1 - c0));
      sweep(from, y, -1, Math.min(width, c0));
      const spare = before;
      before = line;
      line = spare;
    }
  }
  return seen;

  /** One half of a line of cells, outwards from the eye's column. */
  function sweep(from: number, y: number, way: number, width: number): void {
    for (let x = 1; x <= width; x++) {
      const c = c0 + way * x;
      const diagonal = before[c - way]!;
      let least: number;
      if (x === y) least = x === 1 ? LOWEST : (diagonal * x) / (x - 1);
      else if (x < y) least = (diagonal * x + before[c]! * (y - x)) / (y - 1);
      else least = (diagonal * y + line[c - way]! * (x - y)) / (x - 1);
      line[c] = settle(from + c, x * x + y * y, least);
    }
  }

  /** Marks a cell and gives the height below which what lies behind it is hidden. */
  function settle(i: number, cells2: number, least: number): number {
    const z = data[i]! - eye - bend * cells2;
    if (z + targetHeight >= least) seen[i] = 1;
    // a missing height compares false and hides nothing
    if (z > least) return z;
    return least;
  }
}

/** The ring round the eye is always in view; a finite bottom, so that no sum of two gives NaN. */
const LOWEST = -1e30;
