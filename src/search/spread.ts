import { PACE_STEPS } from '../cost/surface.ts';
import { BucketQueue, LAST_BUCKET } from './bucket-queue.ts';
import { PACE_LAST, PACE_ZERO } from './edge.ts';
import { CLOSED_BITS, type PaddedGrid, STRIDE } from './padded.ts';

/** Where a search may end, and towards what it leans. */
export interface Spread {
  /** Nothing is settled beyond this many seconds. */
  readonly limitSeconds: number;
  /** Handle of the one cell that is wanted, or −1 for all. */
  readonly target: number;
}

/**
 * Spreads least seconds from the sources over a padded grid, 8 neighbours; they are left in the grid.
 *
 * Without a target this is Dijkstra's search. Every edge costs at least cell × least pace × least factor; buckets of that
 * width hold final cells only, so they need no order inside (Dial 1969; Denardo & Fox 1979).
 *
 * With a target it is A*: a cell's bucket is that of its seconds plus least pace × least factor × octile distance to the target,
 * which no edge undercuts, so the estimate is consistent (Hart, Nilsson & Raphael 1968). A cell that improves within its
 * bucket is taken up again; the search ends when the bucket begins beyond the target's seconds.
 */
export function spread(grid: PaddedGrid, cell: number, sources: readonly number[], to: Spread): void {
  const { cells, bits, pace, width, leastPace, leastFactor } = grid;
  const down = STRIDE * width;
  const least = cell * leastPace * leastFactor;
  const perSecond = 1 / least;
  const leans = to.target >= 0;

  // with a target: its column and row, and the estimate per cell, a hair low so that rounding cannot make it too high
  const perHandle = 1 / down;
  const targetRow = Math.floor(to.target / down);
  const targetColumn = (to.target - targetRow * down) / STRIDE;
  const lean = leans ? least * (1 - 1e-6) : 0;
  const estimate = (handle: number): number => {
    const row = ((handle + 0.5) * perHandle) | 0;
    const dx = Math.abs((handle - row * down) * (1 / STRIDE) - targetColumn);
    const dy = Math.abs(row - targetRow);
    return lean * (dx > dy ? dx + (Math.SQRT2 - 1) * dy : dy + (Math.SQRT2 - 1) * dx);
  };
  const bucketOf = (handle: number): number => {
    const b = (leans ? cells[handle + 2]! + estimate(handle) : cells[handle + 2]!) * perSecond;
    return b < LAST_BUCKET ? b | 0 : LAST_BUCKET;
  };
  const queue = new BucketQueue(bucketOf);
  // with a target a stale entry cannot be told by its bucket, since rounding may put a cell a bucket early
  const waiting = new Uint8Array(leans ? cells.length / STRIDE : 0);

  // by number of neighbour: SE SW NE NW, E W S N
  const offsets = Int32Array.of(
    down + STRIDE,
    down - STRIDE,
    STRIDE - down,
    -STRIDE - down,
    STRIDE,
    -STRIDE,
    down,
    -down,
  );
  const halfMetres = Float64Array.from(offsets, (_, k) => cell * (k < 4 ? Math.SQRT2 : 1) * 0.5);
  const steps = Float64Array.from(halfMetres, (half) => PACE_STEPS / (2 * half));
  const straightLeast = cell * 0.5 * leastPace;
  const diagonalLeast = straightLeast * Math.SQRT2;
  const bound = new Float32Array(2);
  const boundBits = new Int32Array(bound.buffer);

  /** Takes up all cells of the present bucket. A function of its own: it is called often enough to be compiled once and well. */
  const settle = (bucket: number): void => {
    for (let i = queue.pop(); i >= 0; i = queue.pop()) {
      const g = cells[i + 2]!;
      if (leans) {
        if (waiting[i / STRIDE] === 0) continue;
        waiting[i / STRIDE] = 0;
      } else if (g * perSecond < bucket) continue;
      const z = cells[i]!;
      const f = cells[i + 1]!;

      // Which neighbours could improve at all, at the least pace and factor. Floats above 0 are in the order of their bits;
      // a closed cell holds the smallest float, which nothing improves.
      bound[0] = g + straightLeast * (f + leastFactor);
      bound[1] = g + diagonalLeast * (f + leastFactor);
      const straight = boundBits[0]!;
      const diagonal = boundBits[1]!;
      const n = bits[i - down + 2]!;
      const s = bits[i + down + 2]!;
      const w = bits[i - STRIDE + 2]!;
      const e = bits[i + STRIDE + 2]!;
      let open =
        (((straight - n) >>> 31) << 7) |
        (((straight - s) >>> 31) << 6) |
        (((straight - w) >>> 31) << 5) |
        (((straight - e) >>> 31) << 4) |
        (((diagonal - bits[i - down - STRIDE + 2]!) >>> 31) << 3) |
        (((diagonal - bits[i - down + STRIDE + 2]!) >>> 31) << 2) |
        (((diagonal - bits[i + down - STRIDE + 2]!) >>> 31) << 1) |
        ((diagonal - bits[i + down + STRIDE + 2]!) >>> 31);
      // no squeezing between two closed cells that touch at a corner
      if (n === CLOSED_BITS) open &= ~((w === CLOSED_BITS ? 8 : 0) | (e === CLOSED_BITS ? 4 : 0));
      if (s === CLOSED_BITS) open &= ~((w === CLOSED_BITS ? 2 : 0) | (e === CLOSED_BITS ? 1 : 0));

      while (open !== 0) {
        const k = 31 - Math.clz32(open);
        open ^= 1 << k;
        const j = i + offsets[k]!;
        const known = cells[j + 2]!;
        const length = halfMetres[k]! * (f + cells[j + 1]!);
        if (g + length * leastPace >= known) continue;
        const rise = (cells[j]! - z) * steps[k]! + (PACE_ZERO + 0.5);
        const index = rise > PACE_LAST ? PACE_LAST : rise > 0 ? rise | 0 : 0;
        const better = Math.fround(g + length * pace[index]!);
        if (better >= known) continue;
        cells[j + 2] = better;
        const ahead = leans ? estimate(j) : 0;
        const place = (better + ahead) * perSecond;
        const next = place < LAST_BUCKET ? place | 0 : LAST_BUCKET;
        if (leans) {
          const before = (known + ahead) * perSecond;
          const inQueue = waiting[j / STRIDE] === 1 && before < LAST_BUCKET && (before | 0) === next;
          if (inQueue) continue;
          waiting[j / STRIDE] = 1;
          queue.push(j, Math.max(next, bucket));
        } else if (next === LAST_BUCKET || known * perSecond >= next + 1) {
          // otherwise the cell stays in its bucket and is in the queue already
          queue.push(j, next);
        }
      }
    }
  };

  for (const source of sources) {
    if (bits[source + 2] === CLOSED_BITS) continue;
    cells[source + 2] = 0;
    if (leans) waiting[source / STRIDE] = 1;
    queue.push(source, bucketOf(source));
  }
  while (queue.advance()) {
    const begins = queue.current * least;
    if (begins > to.limitSeconds || (leans && begins > cells[to.target + 2]!)) return;
    settle(queue.current);
  }
}
