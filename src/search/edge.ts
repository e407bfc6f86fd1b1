import { type CostSurface, PACE_REACH, PACE_STEPS } from '../cost/surface.ts';

/** Index of the gradient 0 in the pace table, and of its last entry. */
export const PACE_ZERO = PACE_REACH * PACE_STEPS;
export const PACE_LAST = 2 * PACE_ZERO;

/** A cell that nobody may enter: no height, no factor, or a barrier. */
export function isClosed(surface: CostSurface, cell: number): boolean {
  return !Number.isFinite(surface.elevation[cell]!) || !Number.isFinite(surface.factor[cell]!);
}

/**
 * Seconds from a cell to one of its 8 neighbours, in Float64: the one definition that fields, paths and tests share.
 *
 *     d · pace(round(((z_b − z_a)/d + reach) · steps)) · (factor_a + factor_b)/2
 *
 * Infinity when either cell is closed, or when a diagonal squeezes between two closed cells.
 */
export function edgeSeconds(surface: CostSurface, from: number, to: number): number {
  if (isClosed(surface, from) || isClosed(surface, to)) return Number.POSITIVE_INFINITY;
  const { columns, cell, elevation, factor, pace } = surface;
  const fromColumn = from % columns;
  const toColumn = to % columns;
  const step = to - from - (toColumn - fromColumn);
  const diagonal = fromColumn !== toColumn && step !== 0;
  if (diagonal && isClosed(surface, from + step) && isClosed(surface, from + toColumn - fromColumn)) {
    return Number.POSITIVE_INFINITY;
  }
  const metres = diagonal ? cell * Math.SQRT2 : cell;
  const rise = (elevation[to]! - elevation[from]!) * (PACE_STEPS / metres) + (PACE_ZERO + 0.5);
  const index = rise > PACE_LAST ? PACE_LAST : rise > 0 ? Math.floor(rise) : 0;
  return metres * 0.5 * pace[index]! * (factor[from]! + factor[to]!);
}

/** Seconds along neighbouring cells, summed in Float64. A line of one cell takes 0 s. */
export function lineSeconds(surface: CostSurface, cells: ArrayLike<number>): number {
  let seconds = 0;
  for (let i = 1; i < cells.length; i++) seconds += edgeSeconds(surface, cells[i - 1]!, cells[i]!);
  return seconds;
}
