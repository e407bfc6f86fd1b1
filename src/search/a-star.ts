import type { CostSurface } from '../cost/surface.ts';
import { isClosed, lineSeconds } from './edge.ts';
import { pathFrom } from './field.ts';
import { handleOf, padded, unpadded } from './padded.ts';
import { spread } from './spread.ts';

/** A line of neighbouring cells, start first, and its seconds summed in Float64. */
export interface CellPath {
  readonly cells: Int32Array;
  readonly seconds: number;
}

/**
 * The least-cost line between two cells, 8 neighbours: A* by `spread`.
 *
 * @returns null when the target cannot be reached, or an end is closed.
 */
export function leastCostPath(surface: CostSurface, from: number, to: number): CellPath | null {
  const grid = padded(surface, 'from');
  const start = handleOf(surface, from);
  const target = handleOf(surface, to);
  if (isClosed(surface, from) || isClosed(surface, to)) return null;
  spread(grid, surface.cell, [start], { limitSeconds: Number.POSITIVE_INFINITY, target });
  const cells = pathFrom(surface, unpadded(grid, surface), to, 'from');
  return cells === null ? null : { cells, seconds: lineSeconds(surface, cells) };
}
