import type { CostSurface } from '../cost/surface.ts';
import { lineSeconds } from './edge.ts';
import { costField, pathFrom } from './field.ts';

/** Two whole fields and their sum. Seconds per cell, Infinity where no line passes. */
export interface Corridor {
  readonly fromStart: Float32Array;
  readonly toTarget: Float32Array;
  /** Seconds of the best line from start to target through the cell. */
  readonly through: Float32Array;
  /** Seconds of the best line of all; Infinity when the target cannot be reached. */
  readonly least: number;
}

/** The cost of the best line through every cell: the seconds from the start plus the seconds to the target. */
export function corridor(surface: CostSurface, start: number, target: number): Corridor {
  const fromStart = costField(surface, [start], 'from');
  const toTarget = costField(surface, [target], 'to');
  const through = new Float32Array(fromStart.length);
  for (let i = 0; i < through.length; i++) through[i] = fromStart[i]! + toTarget[i]!;
  return { fromStart, toTarget, through, least: fromStart[target]! };
}

/** The best line through one cell, start first; null when there is none. */
export function lineThrough(surface: CostSurface, paths: Corridor, cell: number): Int32Array | null {
  const before = pathFrom(surface, paths.fromStart, cell, 'from');
  const after = pathFrom(surface, paths.toTarget, cell, 'to');
  if (before === null || after === null) return null;
  const line = new Int32Array(before.length + after.length - 1);
  line.set(before);
  line.set(after, before.length - 1);
  return line;
}

export interface AlternativeOptions {
  /** How many lines at most, the best one included. */
  readonly count: number;
  /** How much longer than the best one a line may take, as a share: 0.3 is 30 %. */
  readonly slack: number;
  /** How much of a line (share of its cells) may lie within `apartMetres` of one line taken before it. */
  readonly shared: number;
  readonly apartMetres: number;
}

export interface Alternative {
  /** The cell that the line was drawn through. */
  readonly via: number;
  readonly cells: Int32Array;
  /** Summed in Float64. */
  readonly seconds: number;
}

const TRIES = 400;

/**
 * The best line and others that differ from it: lines through local minima of `through`. Where a line is the best of
 * its neighbourhood, moving its via cell aside costs more; elsewhere the line through a cell has a spike that moving would shorten,
 * so only minima are asked. Taken in order of seconds while they overlap those before them little enough (the single-via
 * idea of Abraham, Delling, Goldberg & Werneck 2013). Work is bounded by 400 traced lines.
 *
 * @returns the best line first; empty when the target cannot be reached.
 */
export function alternatives(
  surface: CostSurface,
  paths: Corridor,
  options: AlternativeOptions,
): Alternative[] {
  if (!(paths.least < Number.POSITIVE_INFINITY)) return [];
  const taken: Alternative[] = [];
  // 1 + the number of the line whose strip a cell lies in is a bit of its mask
  const strips = new Uint32Array(paths.through.length);
  const count = Math.min(options.count, 31);
  for (const via of minima(surface, paths, options)) {
    if (taken.length >= count) break;
    const cells = lineThrough(surface, paths, via);
    if (cells === null || doubles(cells) || overlap(cells, strips, taken.length) > options.shared) continue;
    strip(surface, cells, options.apartMetres, strips, 1 << taken.length);
    taken.push({ via, cells, seconds: lineSeconds(surface, cells) });
  }
  return taken;
}

/** Local minima of `through` within the slack, one per block of `apartMetres`, by seconds. */
function minima(surface: CostSurface, paths: Corridor, options: AlternativeOptions): number[] {
  const { columns, rows, cell } = surface;
  const { through } = paths;
  const limit = paths.least * (1 + options.slack);
  // two sums of rounded seconds of one and the same line differ by about this
  const noise = 1 + 2e-6;
  const side = Math.max(2, Math.round(options.apartMetres / cell));
  const blockColumns = Math.ceil(columns / side);
  const lowest = new Int32Array(blockColumns * Math.ceil(rows / side)).fill(-1);
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const i = r * columns + c;
      const seconds = through[i]!;
      if (!(seconds <= limit)) continue;
      const block = Math.floor(r / side) * blockColumns + Math.floor(c / side);
      const rival = lowest[block]!;
      if (rival >= 0 && through[rival]! <= seconds) continue;
      if (isMinimum(through, columns, rows, c, r, seconds / noise)) lowest[block] = i;
    }
  }
  return Array.from(lowest)
    .filter((i) => i >= 0)
    .sort((a, b) => through[a]! - through[b]! || a - b)
    .slice(0, TRIES);
}

function isMinimum(
  through: Float32Array,
  columns: number,
  rows: number,
  column: number,
  row: number,
  floor: number,
): boolean {
  for (let r = row > 0 ? row - 1 : 0; r <= row + 1 && r < rows; r++) {
    for (let c = column > 0 ? column - 1 : 0; c <= column + 1 && c < columns; c++) {
      if (through[r * columns + c]! < floor) return false;
    }
  }
  return true;
}

/** A line that visits a cell twice has a spike. */
function doubles(cells: Int32Array): boolean {
  return new Set(cells).size < cells.length;
}

/** The largest share of a line's cells in the strip of one line taken before. */
function overlap(cells: Int32Array, strips: Uint32Array, lines: number): number {
  let most = 0;
  for (let line = 0; line < lines; line++) {
    let inside = 0;
    for (const i of cells) if ((strips[i]! & (1 << line)) !== 0) inside++;
    if (inside > most) most = inside;
  }
  return most / cells.length;
}

function strip(
  surface: CostSurface,
  cells: Int32Array,
  metres: number,
  strips: Uint32Array,
  bit: number,
): void {
  const { columns, rows, cell } = surface;
  const reach = Math.floor(metres / cell);
  for (const i of cells) {
    const column = i % columns;
    const row = (i - column) / columns;
    const lastColumn = Math.min(columns - 1, column + reach);
    const lastRow = Math.min(rows - 1, row + reach);
    for (let r = Math.max(0, row - reach); r <= lastRow; r++) {
      for (let c = Math.max(0, column - reach); c <= lastColumn; c++) {
        const k = r * columns + c;
        strips[k] = strips[k]! | bit;
      }
    }
  }
}
