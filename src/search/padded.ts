import type { CostSurface } from '../cost/surface.ts';
import { PACE_ZERO } from './edge.ts';
import { workspace } from './workspace.ts';

/** Float32 values per cell: height, factor, seconds. */
export const STRIDE = 3;

/** Seconds of a closed cell, as bits: the smallest float above 0, so that nothing improves it. */
export const CLOSED_BITS = 1;

/**
 * A cost surface made ready for a search: cells interleaved (height, factor, seconds) inside a border of closed cells,
 * so that no neighbour needs a bounds test. A cell's handle is the offset of its height in `cells`.
 */
export interface PaddedGrid extends Paces {
  readonly cells: Float32Array;
  /** The same memory as integers. */
  readonly bits: Int32Array;
  /** Cells per row, border included. */
  readonly width: number;
  readonly leastFactor: number;
}

/** The pace table of a surface in Float64, and its least entry on the gradients that the ground has. */
export interface Paces {
  readonly pace: Float64Array;
  readonly leastPace: number;
  /** One pace holds on the whole ground: it is level, or the table is. */
  readonly isEven: boolean;
}

/** @throws RangeError for a pace that is zero or negative, or arrays of another size: a fault of the caller. */
export function pacesOf({ columns, rows, elevation, factor, pace: table }: CostSurface): Paces {
  if (elevation.length !== columns * rows || factor.length !== columns * rows) {
    throw new RangeError(`cost surface: ${elevation.length} heights for ${columns} × ${rows} cells`);
  }
  const pace = Float64Array.from(table);
  const leastPace = pace.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (pace.length !== 2 * PACE_ZERO + 1 || !(leastPace > 0)) {
    throw new RangeError(`pace table: ${pace.length} entries, the least ${leastPace} s/m`);
  }
  const level = pace[PACE_ZERO]!;
  if (pace.every((p) => p === level)) return { pace, leastPace, isEven: true };
  // on level ground bounds by the least pace are then exact, and buckets as wide as they can be
  if (isLevel(elevation)) return { pace: pace.fill(level), leastPace: level, isEven: true };
  return { pace, leastPace, isEven: false };
}

/**
 * Seconds start as Infinity. Heights are negated for a search against the direction of travel: the rise from the neighbour is then what is read.
 * @throws RangeError for a factor that is zero or negative: a fault of the caller.
 */
export function padded(surface: CostSurface, paces: Paces, direction: 'from' | 'to'): PaddedGrid {
  const { columns, rows } = surface;
  const width = columns + 2;
  const cells = workspace(STRIDE * width * (rows + 2));
  const bits = new Int32Array(cells.buffer, 0, cells.length);
  const shut = (from: number, count: number): void => {
    for (let k = STRIDE * from; k < STRIDE * (from + count); k += STRIDE) {
      cells[k] = 0;
      cells[k + 1] = Number.POSITIVE_INFINITY;
      bits[k + 2] = CLOSED_BITS;
    }
  };
  shut(0, width + 1);
  const sign = direction === 'from' ? 1 : -1;
  let leastFactor = Number.POSITIVE_INFINITY;
  for (let r = 1; r <= rows; r++) {
    const inRow = padRow(surface, r - 1, sign, cells, bits, STRIDE * (r * width + 1));
    if (inRow < leastFactor) leastFactor = inRow;
    shut((r + 1) * width - 1, 2);
  }
  shut((rows + 1) * width + 1, width - 1);
  return { cells, bits, width, leastFactor, ...paces };
}

/** Every height that is not missing is the same one. */
function isLevel(elevation: Float32Array): boolean {
  let first = Number.NaN;
  for (let i = 0; i < elevation.length; i++) {
    const z = elevation[i]!;
    if (z === first || Number.isNaN(z)) continue;
    if (!Number.isNaN(first)) return false;
    first = z;
  }
  return true;
}

/** Writes a row from handle `k` on and returns its least factor. */
function padRow(
  surface: CostSurface,
  row: number,
  sign: number,
  cells: Float32Array,
  bits: Int32Array,
  k: number,
): number {
  const { columns, elevation, factor } = surface;
  let least = Number.POSITIVE_INFINITY;
  for (let i = row * columns, end = i + columns; i < end; i++, k += STRIDE) {
    const f = factor[i]!;
    const z = elevation[i]!;
    // a missing height, a missing factor and a barrier all leave the cell closed
    if (!(f < Number.POSITIVE_INFINITY && z - z === 0)) {
      cells[k] = 0;
      cells[k + 1] = Number.POSITIVE_INFINITY;
      bits[k + 2] = CLOSED_BITS;
      continue;
    }
    if (f <= 0) throw new RangeError(`cost surface: factor ${f} at cell ${i}, must be above 0`);
    if (f < least) least = f;
    cells[k] = sign * z;
    cells[k + 1] = f;
    cells[k + 2] = Number.POSITIVE_INFINITY;
  }
  return least;
}

/** The seconds without the border; Infinity where closed, not reached, or beyond the limit. */
export function unpadded(
  { cells, bits, width }: PaddedGrid,
  { columns, rows }: CostSurface,
  limit = Number.POSITIVE_INFINITY,
): Float32Array {
  const field = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    let k = STRIDE * ((r + 1) * width + 1) + 2;
    for (let i = r * columns, end = i + columns; i < end; i++, k += STRIDE) {
      const closed = bits[k] === CLOSED_BITS;
      const seconds = cells[k]!;
      field[i] = closed || seconds > limit ? Number.POSITIVE_INFINITY : seconds;
    }
  }
  return field;
}

/** @throws RangeError for a cell off the raster. */
export function handleOf(surface: CostSurface, cell: number, stride = STRIDE): number {
  const { columns, rows } = surface;
  if (!(Number.isInteger(cell) && cell >= 0 && cell < columns * rows)) {
    throw new RangeError(`cell ${cell} is off the raster of ${columns} × ${rows}`);
  }
  const row = Math.floor(cell / columns);
  return stride * ((row + 1) * (columns + 2) + (cell - row * columns) + 1);
}
