import { type CostSurface, PACE_STEPS } from '../cost/surface.ts';
import { BucketQueue, LAST_BUCKET } from './bucket-queue.ts';
import { edgeSeconds, PACE_LAST, PACE_ZERO } from './edge.ts';
import { handleOf, type PaddedGrid, padded, STRIDE } from './padded.ts';

/**
 * Least seconds over the raster: `from` the nearest source to every cell, or from every cell `to` the nearest source.
 *
 * Exact Dijkstra with 8 neighbours. Every edge costs at least cell × least pace × least factor; buckets of that width hold
 * final cells only, so no heap is needed (Dial 1969; Denardo & Fox 1979).
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
  const grid = padded(surface, direction);
  spread(
    grid,
    surface.cell,
    sources.map((s) => handleOf(surface, s)),
    limitSeconds,
  );
  return unpadded(grid, surface, limitSeconds);
}

/** Dijkstra over the padded grid; the seconds are left in it. */
function spread(grid: PaddedGrid, cell: number, sources: readonly number[], limit: number): void {
  const { cells, pace, width, leastPace, leastFactor } = grid;
  const bucketsPerSecond = 1 / (cell * leastPace * leastFactor);
  const bucketOf = (entry: number) => {
    const b = cells[entry + 2]! * bucketsPerSecond;
    return b < LAST_BUCKET ? b | 0 : LAST_BUCKET;
  };
  const queue = new BucketQueue(bucketOf);

  const straight = cell * 0.5;
  const diagonal = cell * Math.SQRT2 * 0.5;
  const straightLeast = straight * leastPace;
  const diagonalLeast = diagonal * leastPace;
  const straightSteps = PACE_STEPS / cell;
  const diagonalSteps = PACE_STEPS / (cell * Math.SQRT2);
  const down = STRIDE * width;

  for (const s of sources) {
    if (cells[s + 1]! === Number.POSITIVE_INFINITY) continue;
    cells[s + 2] = 0;
    queue.push(s, 0);
  }

  const relax = (to: number, z: number, seconds: number, halfMetres: number, steps: number, sum: number) => {
    const rise = (cells[to]! - z) * steps + (PACE_ZERO + 0.5);
    const index = rise > PACE_LAST ? PACE_LAST : rise > 0 ? rise | 0 : 0;
    const better = Math.fround(seconds + halfMetres * pace[index]! * sum);
    const known = cells[to + 2]!;
    if (better >= known) return;
    cells[to + 2] = better;
    const b = better * bucketsPerSecond;
    const bucket = b < LAST_BUCKET ? b | 0 : LAST_BUCKET;
    // a cell that stays in its bucket is in the queue already; the last bucket holds everything beyond, in no order
    const k = known * bucketsPerSecond;
    if (bucket === LAST_BUCKET || !(k < LAST_BUCKET) || (k | 0) !== bucket) queue.push(to, bucket);
  };

  while (queue.advance()) {
    const bucket = queue.current;
    if (bucket > limit * bucketsPerSecond) return;
    for (let i = queue.pop(); i >= 0; i = queue.pop()) {
      if (bucketOf(i) < bucket) continue;
      const z = cells[i]!;
      const f = cells[i + 1]!;
      const g = cells[i + 2]!;
      const n = i - down;
      const s = i + down;
      const w = i - STRIDE;
      const e = i + STRIDE;
      const fn = cells[n + 1]!;
      const fs = cells[s + 1]!;
      const fw = cells[w + 1]!;
      const fe = cells[e + 1]!;
      // the least that an edge can cost is tested before its pace is read; a closed neighbour fails it (Infinity)
      if (g + straightLeast * (f + fn) < cells[n + 2]!) relax(n, z, g, straight, straightSteps, f + fn);
      if (g + straightLeast * (f + fs) < cells[s + 2]!) relax(s, z, g, straight, straightSteps, f + fs);
      if (g + straightLeast * (f + fw) < cells[w + 2]!) relax(w, z, g, straight, straightSteps, f + fw);
      if (g + straightLeast * (f + fe) < cells[e + 2]!) relax(e, z, g, straight, straightSteps, f + fe);
      // no squeezing between two closed cells that touch at a corner
      const north = fn < Number.POSITIVE_INFINITY;
      const south = fs < Number.POSITIVE_INFINITY;
      const west = fw < Number.POSITIVE_INFINITY;
      const east = fe < Number.POSITIVE_INFINITY;
      let sum = f + cells[n - STRIDE + 1]!;
      if (g + diagonalLeast * sum < cells[n - STRIDE + 2]! && (north || west)) {
        relax(n - STRIDE, z, g, diagonal, diagonalSteps, sum);
      }
      sum = f + cells[n + STRIDE + 1]!;
      if (g + diagonalLeast * sum < cells[n + STRIDE + 2]! && (north || east)) {
        relax(n + STRIDE, z, g, diagonal, diagonalSteps, sum);
      }
      sum = f + cells[s - STRIDE + 1]!;
      if (g + diagonalLeast * sum < cells[s - STRIDE + 2]! && (south || west)) {
        relax(s - STRIDE, z, g, diagonal, diagonalSteps, sum);
      }
      sum = f + cells[s + STRIDE + 1]!;
      if (g + diagonalLeast * sum < cells[s + STRIDE + 2]! && (south || east)) {
        relax(s + STRIDE, z, g, diagonal, diagonalSteps, sum);
      }
    }
  }
}

function unpadded(grid: PaddedGrid, surface: CostSurface, limit: number): Float32Array {
  const { columns, rows } = surface;
  const field = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    let k = STRIDE * ((r + 1) * grid.width + 1) + 2;
    for (let i = r * columns, end = i + columns; i < end; i++, k += STRIDE) {
      const seconds = grid.cells[k]!;
      field[i] = seconds > limit ? Number.POSITIVE_INFINITY : seconds;
    }
  }
  return field;
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
