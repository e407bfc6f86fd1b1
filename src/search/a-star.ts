import type { CostSurface } from '../cost/surface.ts';
import { BucketQueue, LAST_BUCKET } from './bucket-queue.ts';
import { edgeSeconds, isClosed, lineSeconds } from './edge.ts';
import { CLOSED_BITS, handleOf, pacesOf } from './padded.ts';
import { FROM, leastFactorOf, POTENTIAL, ReadyRows, STRIDE, TO } from './ready-rows.ts';
import { type Front, neighbours, settle } from './spread.ts';

/** A line of neighbouring cells, start first, and its seconds summed in Float64. */
export interface CellPath {
  readonly cells: Int32Array;
  readonly seconds: number;
}

/** How far the potentials lean. Short of 1, so that an edge raises every key by a bucket and buckets hold final cells only. */
const LEAN = 0.7;

/**
 * The least-cost line between two cells, 8 neighbours: A* from both ends.
 *
 * An estimate h(a, b) = least pace × least factor × octile distance is consistent, since no edge undercuts it (Hart, Nilsson & Raphael
 * 1968). A front from the start and one to the target spread with the keys
 *
 *     seconds from start + π(x)   and   seconds to target − π(x),   π(x) = (h(x, target) − h(start, x))/2,
 *
 * which lean towards each other and agree on every edge (Ikeda et al. 1994): the search ends when the least keys of both together
 * reach the least sum seen where the fronts met. On rough ground, where h is far below the truth, two small fronts still settle less than a large one.
 *
 * @returns null when the target cannot be reached, or an end is closed.
 */
export function leastCostPath(surface: CostSurface, from: number, to: number): CellPath | null {
  const { pace, leastPace } = pacesOf(surface);
  const start = handleOf(surface, from, STRIDE);
  const target = handleOf(surface, to, STRIDE);
  const least = surface.cell * leastPace * leastFactorOf(surface);
  if (isClosed(surface, from) || isClosed(surface, to)) return null;
  if (from === to) return { cells: Int32Array.of(from), seconds: 0 };

  const ready = new ReadyRows(surface, from, to, LEAN * 0.5 * least);
  const meeting = { seconds: Number.POSITIVE_INFINITY, handle: -1 };
  const ground = { surface, pace, bucketSeconds: (1 - LEAN) * least, ready, meeting };
  const ahead = frontOf(ground, start, FROM, TO);
  const behind = frontOf(ground, target, TO, FROM);
  while (ahead.queue.advance() && behind.queue.advance()) {
    if ((ahead.queue.current + behind.queue.current) * ground.bucketSeconds >= meeting.seconds) break;
    settle(ahead.queue.current <= behind.queue.current ? ahead : behind);
  }
  if (meeting.handle < 0) return null;
  const before = trace(surface, ready, meeting.handle, FROM).reverse();
  const after = trace(surface, ready, meeting.handle, TO);
  const cells = Int32Array.from([...before, ...after.slice(1)]);
  return { cells, seconds: lineSeconds(surface, cells) };
}

interface Ground {
  readonly surface: CostSurface;
  readonly pace: Float64Array;
  readonly bucketSeconds: number;
  readonly ready: ReadyRows;
  readonly meeting: Front['meeting'];
}

function frontOf(
  { surface, pace, bucketSeconds, ready, meeting }: Ground,
  source: number,
  own: number,
  other: number,
): Front {
  const { cells, bits, down } = ready;
  const weight = own === FROM ? 1 : -1;
  const perSecond = 1 / bucketSeconds;
  const bucketOf = (handle: number): number => {
    const place = (cells[handle + own]! + weight * cells[handle + POTENTIAL]!) * perSecond;
    return place < LAST_BUCKET ? place | 0 : LAST_BUCKET;
  };
  const queue = new BucketQueue(bucketOf);
  cells[source + own] = 0;
  queue.push(source, bucketOf(source));
  return {
    ...{ cells, bits, stride: STRIDE, down, offsets: neighbours(STRIDE, down), own, other, meeting, ready },
    ...{ potential: POTENTIAL, weight, climb: weight, cell: surface.cell, pace, perSecond, queue },
  };
}

/** Cells from where the fronts met to the source of one of them: each time to the neighbour that explains the seconds. */
function trace(surface: CostSurface, ready: ReadyRows, met: number, own: number): number[] {
  const { cells, bits, down } = ready;
  const cellOf = (handle: number): number => {
    const row = Math.floor(handle / down);
    return (row - 1) * surface.columns + (handle - row * down) / STRIDE - 1;
  };
  const line = [cellOf(met)];
  for (let at = met; cells[at + own]! > 0; ) {
    const here = cellOf(at);
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const offset of neighbours(STRIDE, down)) {
      const j = at + offset;
      if (!ready.holds(j) || bits[j + own] === CLOSED_BITS || !(cells[j + own]! < cells[at + own]!)) continue;
      const there = cellOf(j);
      const seconds =
        cells[j + own]! +
        (own === FROM ? edgeSeconds(surface, there, here) : edgeSeconds(surface, here, there));
      if (seconds < least) {
        least = seconds;
        best = j;
      }
    }
    if (best < 0) throw new Error('least-cost path: costs differ too widely for Float32 seconds');
    at = best;
    line.push(cellOf(at));
  }
  return line;
}
