import { PACE_STEPS } from '../cost/surface.ts';
import { BucketQueue, isEntry, LAST_BUCKET } from './bucket-queue.ts';
import { PACE_LAST, PACE_ZERO } from './edge.ts';
import { CLOSED_BITS, type PaddedGrid, STRIDE } from './padded.ts';

/** One search that spreads over a padded grid. Slots are offsets from a cell's handle: height, factor, and those named here. */
export interface Front {
  readonly cells: Float32Array;
  /** The same memory as integers. */
  readonly bits: Int32Array;
  /** Floats per cell, and per row of cells. */
  readonly stride: number;
  readonly down: number;
  /** Handles of the neighbours SE SW NE NW, E W S N from that of a cell. */
  readonly offsets: Int32Array;
  /** Slot of the seconds of this front. */
  readonly own: number;
  /** Slot of the seconds of the front that comes to meet it. */
  readonly other: number;
  /** Slot of the potential, and its weight: a cell's key is its seconds + weight × potential. */
  readonly potential: number;
  readonly weight: number;
  /** 1, or −1 for a front that spreads against the direction of travel. */
  readonly climb: 1 | -1;
  readonly cell: number;
  readonly pace: Float64Array;
  /** Buckets per second of key; no edge raises a key by less than one bucket. */
  readonly perSecond: number;
  readonly queue: BucketQueue;
  /** The least sum of both fronts' seconds that has been seen, and where. */
  readonly meeting: { seconds: number; handle: number };
  /** Handles between which the grid is ready; asked to make more of it ready before a cell outside is taken up. */
  readonly ready: { first: number; last: number; more(handle: number): void };
}

/** Seconds by way of the cell taken up, to its neighbours. */
const reached = new Float32Array(8);
const reachedBits = new Int32Array(reached.buffer);

/**
 * Takes up all cells of the present bucket of a front, 8 neighbours.
 *
 * What the loop reads lies in local constants: a variable of an enclosing function would be loaded and checked anew at each use. All
 * eight neighbours are summed before any is compared, since eight branches on what nobody can foretell cost more than the sums.
 */
export function settle(front: Front): void {
  const { cells, bits, offsets, pace, perSecond, queue, ready } = front;
  // | 0 keeps a local constant in a register as a plain integer
  const stride = front.stride | 0;
  const down = front.down | 0;
  const own = front.own | 0;
  const other = front.other | 0;
  const potential = front.potential | 0;
  const weight = front.weight;
  const bucket = queue.current | 0;
  const lastBucket = LAST_BUCKET | 0;
  const last = PACE_LAST | 0;
  const most = PACE_LAST + 0.5;
  const zero = PACE_ZERO + 0.5;
  const straight = front.cell * 0.5;
  const diagonal = straight * Math.SQRT2;
  const steps = (front.climb * PACE_STEPS) / front.cell;
  const diagonalSteps = steps * Math.SQRT1_2;
  const sums = reached;
  const sumBits = reachedBits;
  let first = ready.first | 0;
  let end = ready.last | 0;
  let met = front.meeting.seconds;
  for (let top = queue.take(); top >= 0; queue.release(top), top = queue.take()) {
    for (let at = top; isEntry(at); at--) {
      const i = queue.pool[at]!;
      const g = cells[i + own]!;
      // a cell that has since gone to an earlier bucket
      if ((g + weight * cells[i + potential]!) * perSecond < bucket) continue;
      if (i < first || i > end) {
        ready.more(i);
        first = ready.first | 0;
        end = ready.last | 0;
      }
      const z = cells[i]!;
      const f = cells[i + 1]!;
      const n = (i - down) | 0;
      const s = (i + down) | 0;
      const e = (i + stride) | 0;
      const w = (i - stride) | 0;
      const ne = (n + stride) | 0;
      const nw = (n - stride) | 0;
      const se = (s + stride) | 0;
      const sw = (s - stride) | 0;
      let y = (cells[se]! - z) * diagonalSteps + zero;
      sums[0] = g + diagonal * (f + cells[se + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[sw]! - z) * diagonalSteps + zero;
      sums[1] = g + diagonal * (f + cells[sw + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[ne]! - z) * diagonalSteps + zero;
      sums[2] = g + diagonal * (f + cells[ne + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[nw]! - z) * diagonalSteps + zero;
      sums[3] = g + diagonal * (f + cells[nw + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[e]! - z) * steps + zero;
      sums[4] = g + straight * (f + cells[e + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[w]! - z) * steps + zero;
      sums[5] = g + straight * (f + cells[w + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[s]! - z) * steps + zero;
      sums[6] = g + straight * (f + cells[s + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;
      y = (cells[n]! - z) * steps + zero;
      sums[7] = g + straight * (f + cells[n + 1]!) * pace[y > most ? last : y > 0 ? y | 0 : 0]!;

      // Floats above 0 are in the order of their bits. A closed cell holds the smallest float, which nothing improves.
      const bn = bits[n + own]!;
      const bs = bits[s + own]!;
      const be = bits[e + own]!;
      const bw = bits[w + own]!;
      let better =
        ((sumBits[0]! - bits[se + own]!) >>> 31) |
        (((sumBits[1]! - bits[sw + own]!) >>> 31) << 1) |
        (((sumBits[2]! - bits[ne + own]!) >>> 31) << 2) |
        (((sumBits[3]! - bits[nw + own]!) >>> 31) << 3) |
        (((sumBits[4]! - be) >>> 31) << 4) |
        (((sumBits[5]! - bw) >>> 31) << 5) |
        (((sumBits[6]! - bs) >>> 31) << 6) |
        (((sumBits[7]! - bn) >>> 31) << 7);
      // no squeezing between two closed cells that touch at a corner
      if (bn === CLOSED_BITS) better &= ~((bw === CLOSED_BITS ? 8 : 0) | (be === CLOSED_BITS ? 4 : 0));
      if (bs === CLOSED_BITS) better &= ~((bw === CLOSED_BITS ? 2 : 0) | (be === CLOSED_BITS ? 1 : 0));

      while (better !== 0) {
        const k = 31 - Math.clz32(better);
        better ^= 1 << k;
        const j = (i + offsets[k]!) | 0;
        const seconds = sums[k]!;
        const lean = weight * cells[j + potential]!;
        const before = (cells[j + own]! + lean) * perSecond;
        cells[j + own] = seconds;
        const both = seconds + cells[j + other]!;
        if (both < met) {
          met = both;
          front.meeting.seconds = both;
          front.meeting.handle = j;
        }
        const place = (seconds + lean) * perSecond;
        const next = place < lastBucket ? place | 0 : lastBucket;
        // otherwise the cell stays in its bucket and is in the queue already
        if (next === lastBucket || before >= next + 1) queue.push(j, next);
      }
    }
  }
}

/** Handles of the neighbours SE SW NE NW, E W S N from that of a cell. */
export function neighbours(stride: number, down: number): Int32Array {
  return Int32Array.of(
    down + stride,
    down - stride,
    stride - down,
    -stride - down,
    stride,
    -stride,
    down,
    -down,
  );
}

/** Ready throughout. */
const WHOLE: Front['ready'] = { first: 0, last: 0x7fffffff, more: () => {} };

/**
 * Spreads least seconds from the sources over a padded grid, 8 neighbours; they are left in the grid.
 *
 * Dijkstra's search. Every edge costs at least cell × least pace × least factor; buckets of that width hold final cells only, so they
 * need no order inside (Dial 1969; Denardo & Fox 1979).
 *
 * @param limitSeconds nothing is settled beyond this many seconds.
 */
export function spread(
  grid: PaddedGrid,
  cell: number,
  sources: readonly number[],
  limitSeconds: number,
): void {
  const { cells, bits, pace, width, leastPace, leastFactor } = grid;
  const least = cell * leastPace * leastFactor;
  const perSecond = 1 / least;
  const down = STRIDE * width;
  const queue = new BucketQueue((handle) => {
    const place = cells[handle + 2]! * perSecond;
    return place < LAST_BUCKET ? place | 0 : LAST_BUCKET;
  });
  const front: Front = {
    cells,
    bits,
    stride: STRIDE,
    down,
    offsets: neighbours(STRIDE, down),
    own: 2,
    // nobody comes to meet it
    other: 2,
    meeting: { seconds: Number.NEGATIVE_INFINITY, handle: -1 },
    // no potential: a factor, which is finite, counted 0 times
    potential: 1,
    weight: 0,
    climb: 1,
    cell,
    pace,
    perSecond,
    queue,
    ready: WHOLE,
  };
  for (const source of sources) {
    if (bits[source + 2] === CLOSED_BITS) continue;
    cells[source + 2] = 0;
    queue.push(source, 0);
  }
  while (queue.advance() && queue.current * least <= limitSeconds) settle(front);
}
