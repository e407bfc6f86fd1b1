import { type CostSurface, PACE_STEPS } from '../cost/surface.ts';
import { BucketQueue, LAST_BUCKET } from './bucket-queue.ts';
import { edgeSeconds, lineSeconds, PACE_LAST, PACE_ZERO } from './edge.ts';
import { handleOf, padded, STRIDE } from './padded.ts';

/** A line of neighbouring cells, start first, and its seconds summed in Float64. */
export interface CellPath {
  readonly cells: Int32Array;
  readonly seconds: number;
}

/**
 * The least-cost line between two cells: A* in buckets over 8 neighbours.
 *
 * Heuristic: least pace × least factor × octile distance, which no edge can undercut, so it is consistent (Hart, Nilsson &
 * Raphael 1968). Inside a bucket order is free: a cell that improves is put in again; the search ends when the bucket
 * begins beyond the target's seconds.
 *
 * @returns null when the target cannot be reached, or an end is closed.
 */
export function leastCostPath(surface: CostSurface, from: number, to: number): CellPath | null {
  const grid = padded(surface, 'from');
  const { cells, pace, width, leastPace, leastFactor } = grid;
  const start = handleOf(surface, from);
  const target = handleOf(surface, to);
  const closed = Number.POSITIVE_INFINITY;
  if (cells[start + 1] === closed || cells[target + 1] === closed) return null;

  const { cell } = surface;
  // a hair below the bound, so that rounding to Float32 cannot make it overestimate
  const least = cell * leastPace * leastFactor * (1 - 1e-6);
  const perSecond = 1 / least;
  const rowFloats = STRIDE * width;
  const targetRow = Math.floor(target / rowFloats);
  const targetColumn = (target - targetRow * rowFloats) / STRIDE;
  const estimate = (handle: number): number => {
    const row = Math.floor(handle / rowFloats);
    const dx = Math.abs((handle - row * rowFloats) / STRIDE - targetColumn);
    const dy = Math.abs(row - targetRow);
    return least * (dx > dy ? dx + (Math.SQRT2 - 1) * dy : dy + (Math.SQRT2 - 1) * dx);
  };
  const bucketOf = (handle: number): number => {
    const b = (cells[handle + 2]! + estimate(handle)) * perSecond;
    return b < LAST_BUCKET ? b | 0 : LAST_BUCKET;
  };
  const queue = new BucketQueue(bucketOf);
  const waiting = new Uint8Array(cells.length / STRIDE);

  const offsets = [-rowFloats, -STRIDE, STRIDE, rowFloats];
  const corners = [-rowFloats - STRIDE, -rowFloats + STRIDE, rowFloats - STRIDE, rowFloats + STRIDE];
  const relax = (i: number, j: number, metres: number): void => {
    const known = cells[j + 2]!;
    const sum = cells[i + 1]! + cells[j + 1]!;
    const g = cells[i + 2]!;
    if (g + metres * 0.5 * leastPace * sum >= known) return;
    const rise = (cells[j]! - cells[i]!) * (PACE_STEPS / metres) + (PACE_ZERO + 0.5);
    const index = rise > PACE_LAST ? PACE_LAST : rise > 0 ? rise | 0 : 0;
    const better = Math.fround(g + metres * 0.5 * pace[index]! * sum);
    if (better >= known) return;
    cells[j + 2] = better;
    waiting[j / STRIDE] = 1;
    const bucket = bucketOf(j);
    queue.push(j, Math.max(bucket, queue.current));
  };

  cells[start + 2] = 0;
  waiting[start / STRIDE] = 1;
  queue.current = bucketOf(start);
  queue.push(start, queue.current);
  while (queue.advance()) {
    if (queue.current * least > cells[target + 2]!) break;
    for (let i = queue.pop(); i >= 0; i = queue.pop()) {
      if (waiting[i / STRIDE] === 0) continue;
      waiting[i / STRIDE] = 0;
      for (let k = 0; k < 4; k++) relax(i, i + offsets[k]!, cell);
      for (let k = 0; k < 4; k++) {
        const j = i + corners[k]!;
        // no squeezing between two closed cells that touch at a corner
        const beside = cells[i + (k < 2 ? -rowFloats : rowFloats) + 1];
        const across = cells[i + (k % 2 === 0 ? -STRIDE : STRIDE) + 1];
        if (beside !== closed || across !== closed) relax(i, j, cell * Math.SQRT2);
      }
    }
  }
  if (cells[target + 2] === closed) return null;

  const line = [to];
  for (let at = to; at !== from; ) {
    at = cameFrom(surface, cells, at);
    if (at < 0) throw new Error('cost surface: costs differ too widely for Float32 seconds');
    line.push(at);
  }
  const path = Int32Array.from(line.reverse());
  return { cells: path, seconds: lineSeconds(surface, path) };
}

/** The neighbour with fewer seconds from which the cell's seconds follow best; −1 when there is none. */
function cameFrom(surface: CostSurface, cells: Float32Array, at: number): number {
  const { columns, rows } = surface;
  const column = at % columns;
  const row = (at - column) / columns;
  const reached = cells[handleOf(surface, at) + 2]!;
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let r = row > 0 ? row - 1 : 0; r <= row + 1 && r < rows; r++) {
    for (let c = column > 0 ? column - 1 : 0; c <= column + 1 && c < columns; c++) {
      const near = r * columns + c;
      const g = cells[handleOf(surface, near) + 2]!;
      if (!(g < reached)) continue;
      const seconds = g + edgeSeconds(surface, near, at);
      if (seconds < least) {
        least = seconds;
        best = near;
      }
    }
  }
  return best;
}
