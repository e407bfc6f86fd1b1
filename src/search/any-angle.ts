import { type CostSurface, PACE_STEPS } from '../cost/surface.ts';
import { BucketQueue, isEntry, LAST_BUCKET } from './bucket-queue.ts';
import { cornerRays } from './corner-rays.ts';
import { PACE_LAST, PACE_ZERO } from './edge.ts';
import { straightLines } from './near-source.ts';
import { CLOSED_BITS, handleOf, type PaddedGrid, pacesOf, padded, STRIDE, unpadded } from './padded.ts';
import { zigzagPace } from './zigzag.ts';

/**
 * Least seconds over the raster when a line may leave a cell in any direction, not only towards its 8 neighbours.
 *
 * A cell x is reached from a point of the segment between an orthogonal neighbour a and the diagonal neighbour b beside it, heights,
 * seconds and factors taken as linear along it:
 *
 *     T(x) = min over t in 0..1 of (1−t)·T_a + t·T_b + d·pace((z_x − z_t)/d)·(f_x + f_t)/2,   d = cell·√(1 + t²)
 *
 * (the semi-Lagrangian update of Tsitsiklis 1995 on the 8-point stencil, for direction-dependent cost as Sethian & Vladimirsky 2003),
 * with the pace table read by linear interpolation and eased by `zigzagPace`. On steep ground the order of settling may break, so a
 * cell that improves is taken up again until nothing improves.
 *
 * Overestimate at 200 cells, every direction, against the convexified pace (tests/search/any-angle.test.ts): under 0.1 % on the
 * flat; under 0.25 % on planes up to gradient 0.4 for every published pace of `speed/` but the one that jumps (Naismith–Langmuir:
 * up to 6 %), up to 0.5 for Tobler's, 0.6 for Irmischer–Clarke's and 1 for Naismith's. 8 neighbours are 8 to 60 % too long.
 *
 * Arguments and result as `costField`.
 */
export function anyAngleField(
  surface: CostSurface,
  sources: readonly number[],
  direction: 'from' | 'to',
  limitSeconds = Number.POSITIVE_INFINITY,
): Float32Array {
  const grid = padded(surface, pacesOf(surface), direction);
  const handles = sources.map((source) => handleOf(surface, source));
  spreadAnyAngle(grid, surface.cell, handles, limitSeconds);
  return unpadded(grid, surface, limitSeconds);
}

function spreadAnyAngle(grid: PaddedGrid, cell: number, sources: readonly number[], limit: number): void {
  const { cells, bits, width, leastPace, leastFactor, isEven } = grid;
  const pace = zigzagPace(grid.pace);
  const down = STRIDE * width;
  // an update from a segment adds at least this to the later of its ends when pace does not depend on direction
  const bucketSeconds = cell * leastPace * leastFactor * Math.SQRT1_2;
  const perSecond = 1 / bucketSeconds;
  const bucketOf = (handle: number): number => {
    const b = cells[handle + 2]! * perSecond;
    return b < LAST_BUCKET ? b | 0 : LAST_BUCKET;
  };
  const queue = new BucketQueue(bucketOf);
  const waiting = new Uint8Array(cells.length);

  const ring = Int32Array.of(
    STRIDE,
    STRIDE - down,
    -down,
    -STRIDE - down,
    -STRIDE,
    down - STRIDE,
    down,
    down + STRIDE,
  );
  const front = { cells, bits, waiting, ring, pace, cell, leastPace, leastFactor, isEven, perSecond, queue };
  const wait = (handle: number): void => {
    waiting[handle] = 1;
    queue.push(handle, bucketOf(handle));
  };
  const open = sources.filter((source) => bits[source + 2] !== CLOSED_BITS);
  for (const source of open) {
    cells[source + 2] = 0;
    wait(source);
  }
  for (const source of open) {
    if (ring.some((step) => cells[source + step + 2] === 0)) continue;
    straightLines(grid, cell, pace, source, wait);
    cornerRays(grid, cell, pace, source, wait);
  }
  while (queue.advance()) {
    if (queue.current * bucketSeconds > limit) return;
    settle(front);
  }
}

/** What `settle` reads. */
interface AnyAngle {
  readonly cells: Float32Array;
  readonly bits: Int32Array;
  /** 1 for the handle of a cell that is in the queue. */
  readonly waiting: Uint8Array;
  /** Handles of the neighbours from that of a cell, round the compass: even numbers are orthogonal. */
  readonly ring: Int32Array;
  readonly pace: Float64Array;
  readonly cell: number;
  readonly leastPace: number;
  readonly leastFactor: number;
  readonly isEven: boolean;
  readonly perSecond: number;
  readonly queue: BucketQueue;
}

/** Takes up all cells of the present bucket. Everything in local constants, for the reason given in spread.ts. */
function settle(front: AnyAngle): void {
  const { cells, bits, waiting, ring, pace, leastFactor, isEven, perSecond, queue } = front;
  const bucket = queue.current | 0;
  const lastBucket = LAST_BUCKET | 0;
  const half = front.cell * 0.5;
  const perCell = PACE_STEPS / front.cell;
  const halfLeast = half * front.leastPace;
  const tolerance = halfLeast * leastFactor * 4e-4;
  const zero = PACE_ZERO + 0;
  const most = PACE_LAST + 0;
  const beforeLast = (PACE_LAST - 1) | 0;
  const paceFirst = pace[0]!;
  const paceLast = pace[PACE_LAST]!;
  for (let top = queue.take(); top >= 0; queue.release(top), top = queue.take())
    for (let place = top; isEntry(place); place--) {
      const i = queue.pool[place]!;
      if (waiting[i] === 0) continue;
      waiting[i] = 0;
      const zi = cells[i]!;
      const fi = cells[i + 1]!;
      const ti = cells[i + 2]!;
      for (let k = 0; k < 8; k++) {
        const x = i + ring[k]!;
        const known = cells[x + 2]!;
        // partners of i on the ring of x: a quarter turn on for an orthogonal x, an eighth for a diagonal one
        const turn = 2 - (k & 1);
        const p = i + ring[(k + turn) & 7]!;
        const q = i + ring[(k - turn) & 7]!;
        const tp = cells[p + 2]!;
        const tq = cells[q + 2]!;
        let soonest = ti;
        if (tp < soonest && bits[p + 2] !== CLOSED_BITS) soonest = tp;
        if (tq < soonest && bits[q + 2] !== CLOSED_BITS) soonest = tq;
        const fx = cells[x + 1]!;
        if (soonest + halfLeast * (fx + leastFactor) >= known) continue;

        // straight from i
        const end = k & 1;
        const root = end === 1 ? Math.SQRT2 : 1;
        const zx = cells[x]!;
        const gi = ((zx - zi) * perCell) / root;
        let y = gi + zero;
        let inside = y > 0 && y < most;
        let at = inside ? y | 0 : y > 0 ? beforeLast : 0;
        const slopeI = inside ? pace[at + 1]! - pace[at]! : 0;
        const levelI = inside ? pace[at]! + slopeI * (y - at) : y > 0 ? paceLast : paceFirst;
        const meanI = half * (fx + fi);
        const reachedI = ti + meanI * levelI * root;
        let better = known;
        if (reachedI < better) {
          const shut = end === 1 && bits[p + 2] === CLOSED_BITS && bits[q + 2] === CLOSED_BITS;
          if (!shut) better = reachedI;
        }

        for (let side = 0; side < 2; side++) {
          const m = side === 0 ? p : q;
          const tm = side === 0 ? tp : tq;
          // the later end of a segment looks at it; a closed end has no segment
          if (tm > ti || bits[m + 2] === CLOSED_BITS) continue;
          const sign = end === 1 ? -1 : 1;
          // along t, from the orthogonal end to the diagonal one
          const gain = sign * (tm - ti);
          const fs = sign * (cells[m + 1]! - fi);
          if (isEven && fs === 0) {
            // T_a + min of t·gain + s·√(1 + t²) = T_a + √(s² − gain²); its ends are the ways straight from i and from m
            const s = meanI * levelI;
            if (gain < 0 && 2 * gain * gain < s * s) {
              const reached = (end === 1 ? tm : ti) + Math.sqrt(s * s - gain * gain);
              if (reached < better) better = reached;
            }
            continue;
          }
          const rs = sign * (zi - cells[m]!);
          const fallI =
            gain +
            half * fs * levelI * root +
            meanI * (((levelI - slopeI * gi) * end) / root + slopeI * rs * perCell);
          // convex in t: nothing is gained from this end on, or not enough
          if (sign * fallI >= 0 || reachedI + sign * fallI >= better) continue;
          const ta = end === 1 ? tm : ti;
          const fa = end === 1 ? cells[m + 1]! : fi;
          const ra = zx - (end === 1 ? cells[m]! : zi);
          let lo = 0;
          let hi = 1;
          let atLo = reachedI;
          let atHi = reachedI;
          let fallLo = fallI;
          let fallHi = fallI;
          let t = 1 - end;
          for (let pass = 0; pass < 8; pass++) {
            const r = Math.sqrt(1 + t * t);
            const g = ((ra + t * rs) * perCell) / r;
            y = g + zero;
            inside = y > 0 && y < most;
            at = inside ? y | 0 : y > 0 ? beforeLast : 0;
            const slope = inside ? pace[at + 1]! - pace[at]! : 0;
            const level = inside ? pace[at]! + slope * (y - at) : y > 0 ? paceLast : paceFirst;
            const f = half * (fx + fa + t * fs);
            const reached = ta + t * gain + f * level * r;
            const fall =
              gain + half * fs * level * r + f * (((level - slope * g) * t) / r + slope * rs * perCell);
            if (reached < better) better = reached;
            if (fall < 0) {
              lo = t;
              atLo = reached;
              fallLo = fall;
            } else {
              hi = t;
              atHi = reached;
              fallHi = fall;
            }
            if (fallLo >= 0 || fallHi <= 0) break;
            // tangents at both ends of the bracket meet at a lower bound
            const meet = (atHi - atLo + fallLo * lo - fallHi * hi) / (fallLo - fallHi);
            if (atLo + fallLo * (meet - lo) > better - tolerance) break;
            t = (pass & 1) === 0 ? lo - (fallLo * (hi - lo)) / (fallHi - fallLo) : meet;
          }
        }

        const rounded = Math.fround(better);
        if (rounded >= known) continue;
        cells[x + 2] = rounded;
        const soon = rounded * perSecond;
        const next = soon < lastBucket ? soon | 0 : lastBucket;
        const before = known * perSecond;
        if (waiting[x] === 1 && before < lastBucket && (before | 0) === next) continue;
        waiting[x] = 1;
        queue.push(x, next > bucket ? next : bucket);
      }
    }
}
