import { latticeShare } from './noise.ts';

/** Heights on square cells, row 0 = north. */
export interface Heights {
  readonly columns: number;
  readonly rows: number;
  readonly cell: number;
  readonly z: Float64Array;
}

/** Where the water of each cell goes, in what order, and how many cells drain through it. */
export interface Drainage {
  /** Index of the cell that receives the water; −1 at the map's edge. */
  readonly receiver: Int32Array;
  /** Cells from the outlets upwards. */
  readonly order: Int32Array;
  readonly flow: Float64Array;
}

const STEP_COLUMN = [0, 1, 1, 1, 0, -1, -1, -1];
const STEP_ROW = [-1, -1, 0, 1, 1, 1, 0, -1];

/**
 * Raises every pit, in place, so that each cell has a lower way to the edge (priority flood, Barnes et al. 2014). The way
 * over a filled flat climbs by one to three times `rise` a cell, drawn from the seed, so that it winds.
 */
export function raisePits(ground: Heights, rise: number, seed: number): void {
  const { columns, rows, z } = ground;
  const done = new Uint8Array(columns * rows);
  const heap = new CellHeap(z);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++)
      if (r === 0 || c === 0 || r === rows - 1 || c === columns - 1) {
        done[r * columns + c] = 1;
        heap.push(r * columns + c);
      }
  for (let i = heap.pop(); i >= 0; i = heap.pop()) {
    const r = Math.floor(i / columns);
    const c = i % columns;
    for (let k = 0; k < 8; k++) {
      const rr = r + STEP_ROW[k]!;
      const cc = c + STEP_COLUMN[k]!;
      if (rr < 0 || cc < 0 || rr >= rows || cc >= columns) continue;
      const j = rr * columns + cc;
      if (done[j] === 1) continue;
      done[j] = 1;
      const level = z[i]! + rise * (1 + Math.floor(3 * latticeShare(j, 0, seed)));
      if (z[j]! < level) z[j] = level;
      heap.push(j);
    }
  }
}

/**
 * Steepest descent to one of eight neighbours (O'Callaghan & Mark 1984), on ground without pits. With `unsettled`, a
 * seed, the falls are weighted at random (after Fairfield & Leymarie 1991), so that no grid direction wins in the making.
 */
export function drain(ground: Heights, unsettled?: number): Drainage {
  const { columns, rows, cell, z } = ground;
  const count = columns * rows;
  const receiver = new Int32Array(count).fill(-1);
  for (let r = 1; r < rows - 1; r++)
    for (let c = 1; c < columns - 1; c++) {
      const i = r * columns + c;
      let best = 0;
      for (let k = 0; k < 8; k++) {
        const j = i + STEP_ROW[k]! * columns + STEP_COLUMN[k]!;
        const luck = unsettled === undefined ? 1 : 0.5 + latticeShare(i, k, unsettled);
        const fall = (luck * (z[i]! - z[j]!)) / (cell * (k % 2 === 0 ? 1 : Math.SQRT2));
        if (fall > best) {
          best = fall;
          receiver[i] = j;
        }
      }
    }
  const order = Int32Array.from({ length: count }, (_, i) => i).sort((a, b) => z[a]! - z[b]! || a - b);
  const flow = new Float64Array(count).fill(1);
  for (let k = count - 1; k >= 0; k--) {
    const i = order[k]!;
    if (receiver[i]! >= 0) flow[receiver[i]!]! += flow[i]!;
  }
  return { receiver, order, flow };
}

/** A binary heap of cells, lowest height first; ties by index, so that the order is one. */
class CellHeap {
  readonly cells: number[] = [];
  readonly z: Float64Array;

  constructor(z: Float64Array) {
    this.z = z;
  }

  before(a: number, b: number): boolean {
    return this.z[a]! < this.z[b]! || (this.z[a] === this.z[b] && a < b);
  }

  push(cell: number): void {
    const { cells } = this;
    let i = cells.push(cell) - 1;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (!this.before(cell, cells[up]!)) break;
      cells[i] = cells[up]!;
      i = up;
    }
    cells[i] = cell;
  }

  pop(): number {
    const { cells } = this;
    if (cells.length === 0) return -1;
    const top = cells[0]!;
    const last = cells.pop()!;
    const n = cells.length;
    if (n === 0) return top;
    let i = 0;
    for (let down = 1; down < n; down = 2 * i + 1) {
      if (down + 1 < n && this.before(cells[down + 1]!, cells[down]!)) down++;
      if (!this.before(cells[down]!, last)) break;
      cells[i] = cells[down]!;
      i = down;
    }
    cells[i] = last;
    return top;
  }
}
