import type { CostSurface } from '../cost/surface.ts';
import { CLOSED_BITS } from './padded.ts';
import { workspace } from './workspace.ts';

/** Float32 values per cell of a search from both ends: height, factor, seconds from the start, seconds to the target, potential. */
export const STRIDE = 5;
export const FROM = 2;
export const TO = 3;
export const POTENTIAL = 4;

/** Rows that are made ready at a time. */
const ROWS = 64;

/** A padded grid for a search from both ends, of which only rows that a front comes to are made ready. */
export class ReadyRows {
  readonly cells: Float32Array;
  readonly bits: Int32Array;
  /** Floats per row. */
  readonly down: number;
  /** Handles of the first and the last cell whose neighbours are all ready. */
  first: number;
  last: number;
  readonly #surface: CostSurface;
  readonly #start: readonly [column: number, row: number];
  readonly #target: readonly [column: number, row: number];
  readonly #perCell: number;

  /** `perCell` is the difference of potential per cell of octile distance to one end. */
  constructor(surface: CostSurface, from: number, to: number, perCell: number) {
    const { columns, rows } = surface;
    this.#surface = surface;
    this.#start = [from % columns, Math.floor(from / columns)];
    this.#target = [to % columns, Math.floor(to / columns)];
    this.#perCell = perCell;
    this.down = STRIDE * (columns + 2);
    this.cells = workspace(this.down * (rows + 2));
    this.bits = new Int32Array(this.cells.buffer, 0, this.cells.length);
    const top = Math.min(this.#start[1], this.#target[1]);
    const foot = Math.max(this.#start[1], this.#target[1]) + 2;
    this.first = (top + 1) * this.down;
    this.last = foot * this.down - 1;
    for (let row = top; row <= foot; row++) this.#makeReady(row);
  }

  /** Whether a cell is ready itself. */
  holds(handle: number): boolean {
    return handle >= this.first - this.down && handle <= this.last + this.down;
  }

  more(handle: number): void {
    const row = Math.floor(handle / this.down);
    const top = this.first / this.down - 1;
    const foot = (this.last + 1) / this.down;
    if (row <= top) {
      const next = Math.max(0, row - ROWS);
      for (let r = next; r < top; r++) this.#makeReady(r);
      this.first = (next + 1) * this.down;
    }
    if (row >= foot) {
      const next = Math.min(this.#surface.rows + 1, row + ROWS);
      for (let r = foot + 1; r <= next; r++) this.#makeReady(r);
      this.last = next * this.down - 1;
    }
  }

  /** Row 0 and the one after the last are border. */
  #makeReady(row: number): void {
    const { cells, bits, down } = this;
    const { columns, rows, elevation, factor } = this.#surface;
    const end = (row + 1) * down;
    let k = row * down;
    const shut = (): void => {
      cells[k] = 0;
      cells[k + 1] = Number.POSITIVE_INFINITY;
      bits[k + FROM] = CLOSED_BITS;
      bits[k + TO] = CLOSED_BITS;
      cells[k + POTENTIAL] = 0;
      k += STRIDE;
    };
    if (row === 0 || row === rows + 1) {
      while (k < end) shut();
      return;
    }
    shut();
    const [startColumn, startRow] = this.#start;
    const [targetColumn, targetRow] = this.#target;
    const perCell = this.#perCell;
    const startDown = Math.abs(row - 1 - startRow);
    const targetDown = Math.abs(row - 1 - targetRow);
    let i = (row - 1) * columns;
    for (let c = 0; c < columns; c++, i++) {
      const z = elevation[i]!;
      const f = factor[i]!;
      if (!(f < Number.POSITIVE_INFINITY && z - z === 0)) {
        shut();
        continue;
      }
      cells[k] = z;
      cells[k + 1] = f;
      cells[k + FROM] = Number.POSITIVE_INFINITY;
      cells[k + TO] = Number.POSITIVE_INFINITY;
      cells[k + POTENTIAL] =
        perCell *
        (octile(Math.abs(c - targetColumn), targetDown) - octile(Math.abs(c - startColumn), startDown));
      k += STRIDE;
    }
    shut();
  }
}

/** Least factor of the open cells. @throws RangeError for one that is zero or negative: a fault of the caller. */
export function leastFactorOf({ elevation, factor }: CostSurface): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < factor.length; i++) {
    const f = factor[i]!;
    const z = elevation[i]!;
    if (!(f < least && z - z === 0)) continue;
    if (f <= 0) throw new RangeError(`cost surface: factor ${f} at cell ${i}, must be above 0`);
    least = f;
  }
  return least;
}

function octile(dx: number, dy: number): number {
  return dx > dy ? dx + (Math.SQRT2 - 1) * dy : dy + (Math.SQRT2 - 1) * dx;
}
