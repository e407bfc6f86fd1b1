import type { CostSurface } from '../cost/surface.ts';
import { BucketQueue, isEntry, LAST_BUCKET } from './bucket-queue.ts';
import { PACE_ZERO } from './edge.ts';
import { CLOSED_BITS, handleOf, type Paces } from './padded.ts';
import { neighbours } from './spread.ts';
import { workspace } from './workspace.ts';

/** Float32 values per cell: the seconds of half a straight step on it, and its seconds. */
const STRIDE = 2;

/** Seconds by way of the cell taken up, to its neighbours. */
const reached = new Float32Array(8);
const reachedBits = new Int32Array(reached.buffer);

/**
 * `costField` where one pace holds on the whole ground. Heights and the direction are then of no matter: no table is read, a cell takes
 * two thirds of the memory, and the search takes two thirds of the time. The same search as `spread` otherwise.
 */
export function evenField(
  surface: CostSurface,
  { pace }: Paces,
  sources: readonly number[],
  limitSeconds: number,
): Float32Array {
  const { columns, rows } = surface;
  const down = STRIDE * (columns + 2);
  const cells = workspace(down * (rows + 2));
  const bits = new Int32Array(cells.buffer, 0, cells.length);
  const bucketSeconds = 2 * pad(surface, cells, bits, surface.cell * 0.5 * pace[PACE_ZERO]!);
  const perSecond = 1 / bucketSeconds;
  const queue = new BucketQueue((handle) => {
    const place = cells[handle + 1]! * perSecond;
    return place < LAST_BUCKET ? place | 0 : LAST_BUCKET;
  });
  for (const source of sources) {
    const handle = handleOf(surface, source, STRIDE);
    if (bits[handle + 1] === CLOSED_BITS) continue;
    cells[handle + 1] = 0;
    queue.push(handle, 0);
  }
  while (queue.advance() && queue.current * bucketSeconds <= limitSeconds) {
    settle(cells, bits, down, perSecond, queue);
  }
  const field = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    let k = down * (r + 1) + STRIDE + 1;
    for (let i = r * columns, end = i + columns; i < end; i++, k += STRIDE) {
      const seconds = cells[k]!;
      field[i] = bits[k] === CLOSED_BITS || seconds > limitSeconds ? Number.POSITIVE_INFINITY : seconds;
    }
  }
  return field;
}

/** Makes every cell ready, in a border of closed ones; gives the least seconds of half a step. */
function pad(surface: CostSurface, cells: Float32Array, bits: Int32Array, half: number): number {
  const { columns, rows, elevation, factor } = surface;
  const down = STRIDE * (columns + 2);
  let least = Number.POSITIVE_INFINITY;
  const shut = (from: number, to: number): void => {
    for (let k = from; k < to; k += STRIDE) {
      cells[k] = Number.POSITIVE_INFINITY;
      bits[k + 1] = CLOSED_BITS;
    }
  };
  shut(0, down + STRIDE);
  for (let r = 0; r < rows; r++) {
    let k = down * (r + 1) + STRIDE;
    for (let i = r * columns, end = i + columns; i < end; i++, k += STRIDE) {
      const f = factor[i]!;
      const z = elevation[i]!;
      if (!(f < Number.POSITIVE_INFINITY && z - z === 0)) {
        cells[k] = Number.POSITIVE_INFINITY;
        bits[k + 1] = CLOSED_BITS;
        continue;
      }
      if (f <= 0) throw new RangeError(`cost surface: factor ${f} at cell ${i}, must be above 0`);
      if (f < least) least = f;
      cells[k] = f * half;
      cells[k + 1] = Number.POSITIVE_INFINITY;
    }
    shut(k, k + 2 * STRIDE);
  }
  shut(down * (rows + 1) + STRIDE, down * (rows + 2));
  return least * half;
}

/** As `settle` in spread.ts, where the why of it stands. */
function settle(
  cells: Float32Array,
  bits: Int32Array,
  down: number,
  perSecond: number,
  queue: BucketQueue,
): void {
  const bucket = queue.current | 0;
  const lastBucket = LAST_BUCKET | 0;
  const stride = STRIDE | 0;
  const offsets = neighbours(STRIDE, down);
  const sums = reached;
  const sumBits = reachedBits;
  const diagonal = Math.SQRT2;
  for (let top = queue.take(); top >= 0; queue.release(top), top = queue.take()) {
    for (let at = top; isEntry(at); at--) {
      const i = queue.pool[at]!;
      const g = cells[i + 1]!;
      if (g * perSecond < bucket) continue;
      const f = cells[i]!;
      const n = (i - down) | 0;
      const s = (i + down) | 0;
      const e = (i + stride) | 0;
      const w = (i - stride) | 0;
      const ne = (n + stride) | 0;
      const nw = (n - stride) | 0;
      const se = (s + stride) | 0;
      const sw = (s - stride) | 0;
      sums[0] = g + diagonal * (f + cells[se]!);
      sums[1] = g + diagonal * (f + cells[sw]!);
      sums[2] = g + diagonal * (f + cells[ne]!);
      sums[3] = g + diagonal * (f + cells[nw]!);
      sums[4] = g + (f + cells[e]!);
      sums[5] = g + (f + cells[w]!);
      sums[6] = g + (f + cells[s]!);
      sums[7] = g + (f + cells[n]!);
      const bn = bits[n + 1]!;
      const bs = bits[s + 1]!;
      const be = bits[e + 1]!;
      const bw = bits[w + 1]!;
      let better =
        ((sumBits[0]! - bits[se + 1]!) >>> 31) |
        (((sumBits[1]! - bits[sw + 1]!) >>> 31) << 1) |
        (((sumBits[2]! - bits[ne + 1]!) >>> 31) << 2) |
        (((sumBits[3]! - bits[nw + 1]!) >>> 31) << 3) |
        (((sumBits[4]! - be) >>> 31) << 4) |
        (((sumBits[5]! - bw) >>> 31) << 5) |
        (((sumBits[6]! - bs) >>> 31) << 6) |
        (((sumBits[7]! - bn) >>> 31) << 7);
      if (bn === CLOSED_BITS) better &= ~((bw === CLOSED_BITS ? 8 : 0) | (be === CLOSED_BITS ? 4 : 0));
      if (bs === CLOSED_BITS) better &= ~((bw === CLOSED_BITS ? 2 : 0) | (be === CLOSED_BITS ? 1 : 0));
      while (better !== 0) {
        const k = 31 - Math.clz32(better);
        better ^= 1 << k;
        const j = (i + offsets[k]!) | 0;
        const seconds = sums[k]!;
        const before = cells[j + 1]! * perSecond;
        cells[j + 1] = seconds;
        const place = seconds * perSecond;
        const next = place < lastBucket ? place | 0 : lastBucket;
        if (next === lastBucket || before >= next + 1) queue.push(j, next);
      }
    }
  }
}
