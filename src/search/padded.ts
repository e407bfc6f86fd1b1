import type { CostSurface } from '../cost/surface.ts';
import { PACE_ZERO } from './edge.ts';

/** Float32 values per cell: height, factor, seconds. */
export const STRIDE = 3;

/**
 * A cost surface made ready for a search: cells interleaved (height, factor, seconds) inside a border of closed cells,
 * so that no neighbour needs a bounds test. A cell's handle is the offset of its height in `cells`.
 */
export interface PaddedGrid {
  readonly cells: Float32Array;
  /** Cells per row, border included. */
  readonly width: number;
  readonly pace: Float64Array;
  readonly leastPace: number;
  readonly leastFactor: number;
}

/**
 * Heights are negated for a search against the direction of travel: the rise from the neighbour is then what is read.
 * @throws RangeError for a factor or a pace that is zero or negative, or arrays of another size: a fault of the caller.
 */
export function padded(surface: CostSurface, direction: 'from' | 'to'): PaddedGrid {
  const { columns, rows, elevation, factor } = surface;
  if (elevation.length !== columns * rows || factor.length !== columns * rows) {
    throw new RangeError(`cost surface: ${elevation.length} heights for ${columns} × ${rows} cells`);
  }
  const pace = Float64Array.from(surface.pace);
  const leastPace = pace.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  if (pace.length !== 2 * PACE_ZERO + 1 || !(leastPace > 0)) {
    throw new RangeError(`pace table: ${pace.length} entries, the least ${leastPace} s/m`);
  }
  const width = columns + 2;
  const cells = new Float32Array(STRIDE * width * (rows + 2));
  const sign = direction === 'from' ? 1 : -1;
  let leastFactor = Number.POSITIVE_INFINITY;
  for (let k = 1; k < cells.length; k += STRIDE) {
    cells[k] = Number.POSITIVE_INFINITY;
    cells[k + 1] = Number.POSITIVE_INFINITY;
  }
  for (let r = 0; r < rows; r++) {
    let k = STRIDE * ((r + 1) * width + 1);
    for (let i = r * columns, end = i + columns; i < end; i++, k += STRIDE) {
      const f = factor[i]!;
      const z = elevation[i]!;
      // a missing height, a missing factor and a barrier all close the cell
      if (!(f < Number.POSITIVE_INFINITY && z - z === 0)) continue;
      if (f <= 0) throw new RangeError(`cost surface: factor ${f} at cell ${i}, must be above 0`);
      if (f < leastFactor) leastFactor = f;
      cells[k] = sign * z;
      cells[k + 1] = f;
    }
  }
  return { cells, width, pace, leastPace, leastFactor };
}

export function handleOf(surface: CostSurface, cell: number): number {
  const { columns, rows } = surface;
  if (!(Number.isInteger(cell) && cell >= 0 && cell < columns * rows)) {
    throw new RangeError(`cell ${cell} is off the raster of ${columns} × ${rows}`);
  }
  const row = Math.floor(cell / columns);
  return STRIDE * ((row + 1) * (columns + 2) + (cell - row * columns) + 1);
}
