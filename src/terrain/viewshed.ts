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

  const reach = Math.min(range / cell, columns + rows);
  const view: View = {
    data,
    seen,
    eye,
    targetHeight,
    bend: ((1 - refraction) * cell * cell) / (2 * EARTH_METRES),
    over: Float64Array.from({ length: columns + rows }, (_, n) => 1 / Math.max(n, 1)),
  };
  // least visible heights, relative to the eye, along the eye's own row, the row before and the row in work
  const level = new Float64Array(columns);
  let before = new Float64Array(columns);
  let line = new Float64Array(columns);
  const right = columns - 1 - c0;
  level[c0] = LOWEST;
  seen[r0 * columns + c0] = 1;
  straight(view, r0 * columns + c0, 1, Math.min(Math.floor(reach), right), level, c0);
  straight(view, r0 * columns + c0, -1, Math.min(Math.floor(reach), c0), level, c0);
  for (let side = -1; side <= 1; side += 2) {
    before.set(level);
    for (let y = 1; y <= reach; y++) {
      const r = r0 + side * y;
      if (r < 0 || r >= rows) break;
      const middle = r * columns + c0;
      const least = y === 1 ? LOWEST : before[c0]! * y * view.over[y - 1]!;
      line[c0] = settle(view, middle, y * y, least);
      const width = Math.floor(Math.sqrt(reach * reach - y * y));
      sweep(view, middle, y, 1, Math.min(width, right), before, line, c0);
      sweep(view, middle, y, -1, Math.min(width, c0), before, line, c0);
      const spare = before;
      before = line;
      line = spare;
    }
  }
  return seen;
}

interface View {
  readonly data: Float32Array;
  readonly seen: Uint8Array;
  /** Height of the eye. */
  readonly eye: number;
  readonly targetHeight: number;
  /** Drop of a cell per squared cell of distance, metres. */
  readonly bend: number;
  /** 1 / n. */
  readonly over: Float64Array;
}

/** The ring round the eye is always in view; a finite bottom, so that no sum of two gives NaN. */
const LOWEST = -1e30;

/** Marks a cell and gives the height below which what lies behind it is hidden. A missing height compares false and hides nothing. */
function settle(
  { data, seen, eye, bend, targetHeight }: View,
  i: number,
  cells2: number,
  least: number,
): number {
  const z = data[i]! - eye - bend * cells2;
  if (z + targetHeight >= least) seen[i] = 1;
  if (z > least) return z;
  return least;
}

/** Half of the eye's own row. */
function straight(
  view: View,
  middle: number,
  way: number,
  width: number,
  level: Float64Array,
  c0: number,
): void {
  for (let x = 1; x <= width; x++) {
    const c = c0 + way * x;
    const least = x === 1 ? LOWEST : level[c - way]! * x * view.over[x - 1]!;
    level[c] = settle(view, middle + way * x, x * x, least);
  }
}

/** Half of a row at `y` rows from the eye's, outwards from the eye's column. */
function sweep(
  view: View,
  middle: number,
  y: number,
  way: number,
  width: number,
  before: Float64Array,
  line: Float64Array,
  c0: number,
): void {
  const { data, seen, eye, bend, targetHeight, over } = view;
  const y2 = y * y;
  const overY = y === 1 ? 0 : over[y - 1]!;
  let c = c0;
  let diagonal = before[c0]!;
  let beside = line[c0]!;
  for (let x = 1; x <= width; x++) {
    c += way;
    const straight = before[c]!;
    let least: number;
    if (x < y) least = (diagonal * x + straight * (y - x)) * overY;
    else if (x > y) least = (diagonal * y + beside * (x - y)) * over[x - 1]!;
    else least = x === 1 ? LOWEST : diagonal * x * overY;
    const i = middle + way * x;
    const z = data[i]! - eye - bend * (x * x + y2);
    if (z + targetHeight >= least) seen[i] = 1;
    beside = z > least ? z : least;
    line[c] = beside;
    diagonal = straight;
  }
}
