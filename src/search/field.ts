import type { CostSurface } from '../cost/surface.ts';
import { edgeSeconds } from './edge.ts';
import { evenField } from './even-field.ts';
import { handleOf, pacesOf, padded, unpadded } from './padded.ts';
import { spread } from './spread.ts';

/**
 * Least seconds over the raster: `from` the nearest source to every cell, or from every cell `to` the nearest source.
 *
 * Exact Dijkstra with 8 neighbours, by `spread`, or by `evenField` where one pace holds everywhere.
 *
 * @param sources cells, `row * columns + column`. A closed source is passed over.
 * @param limitSeconds cells farther than this stay Infinity.
 * @returns seconds per cell, rounded to Float32 at every step; Infinity where closed or unreachable.
 */
export function costField(
  surface: CostSurface,
  sources: readonly number[],
  direction: 'from' | 'to',
  limitSeconds = Number.POSITIVE_INFINITY,
): Float32Array {
  const paces = pacesOf(surface);
  if (paces.isEven) return evenField(surface, paces, sources, limitSeconds);
  const grid = padded(surface, paces, direction);
  const handles = sources.map((source) => handleOf(surface, source));
  spread(grid, surface.cell, handles, limitSeconds);
  return unpadded(grid, surface, limitSeconds);
}

/**
 * The line of cells between a cell and the nearest source of a field, in the direction of travel: source first for a field
 * `from`, source last for a field `to`. No parents are stored: each step looks for the neighbour that explains the seconds.
 *
 * @returns cells, or null where the field is Infinity.
 */
export function pathFrom(
  surface: CostSurface,
  field: Float32Array,
  cell: number,
  direction: 'from' | 'to',
): Int32Array | null {
  if (!(field[cell]! < Number.POSITIVE_INFINITY)) return null;
  const line = [cell];
  for (let at = cell; field[at]! > 0; ) {
    at = stepBack(surface, field, at, direction);
    if (at < 0) throw new Error('cost field: costs differ too widely for Float32 seconds');
    line.push(at);
  }
  if (direction === 'from') line.reverse();
  return Int32Array.from(line);
}

/** The neighbour nearer to the source from which the cell's seconds follow best; −1 when none is nearer. */
function stepBack(surface: CostSurface, field: Float32Array, at: number, direction: 'from' | 'to'): number {
  const { columns, rows } = surface;
  const column = at % columns;
  const row = (at - column) / columns;
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let r = row > 0 ? row - 1 : 0; r <= row + 1 && r < rows; r++) {
    for (let c = column > 0 ? column - 1 : 0; c <= column + 1 && c < columns; c++) {
      const to = r * columns + c;
      if (to === at || !(field[to]! < field[at]!)) continue;
      const seconds =
        field[to]! + (direction === 'from' ? edgeSeconds(surface, to, at) : edgeSeconds(surface, at, to));
      if (seconds < least) {
        least = seconds;
        best = to;
      }
    }
  }
  return best;
}
