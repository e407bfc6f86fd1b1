import type { Route } from '../route/leg.ts';
import type { Walkers } from '../walk/jobs.ts';
import type { ReasonTally } from '../walk/reasons.ts';
import {
  addTally,
  CLEAN_HIT,
  FOUND_BY_SEARCH,
  hitsOf,
  newTally,
  type Tally,
  trimTally,
} from '../walk/tally.ts';
import { variations } from '../walk/vary-world.ts';

/** Told how far the work is. */
export type Progress = (state: {
  readonly doing: 'ground' | 'routes' | 'walks' | 'changes';
  readonly done: number;
  readonly of: number;
}) => void;

/** Attempts per job: small enough to share out evenly and to show progress, large enough to be worth posting. */
const BLOCK = 1000;
/** So few first: a worker that has met several routes before it compiles need not throw compiled code away at each. */
const FIRST = 40;
/** Lost attempts that are walked again to learn why; the first ones, so that the choice is not ours. */
const LOOKED_AT = 120;

export interface WalkedRoute {
  readonly tally: Tally;
  readonly reasons: ReasonTally;
  readonly range: AssumptionRange;
}

/**
 * All attempts on each route, and why the lost ones were lost; asked for at once, so that the workers can go on whatever this thread does.
 * `done` hears of each block as it ends.
 */
export function walkRoutes(
  walkers: Walkers,
  routes: readonly Route[],
  seed: number,
  trials: number,
  done: (attempts: number) => void,
): Promise<WalkedRoute>[] {
  const starts = [0];
  for (let from = FIRST; from < trials; from += BLOCK) starts.push(from);
  const totals = routes.map((route) => newTally(route.legs.length, 0, trials));
  const blocks = routes.map((): Promise<void>[] => []);
  starts.forEach((from, k) => {
    const to = starts[k + 1] ?? trials;
    routes.forEach((route, i) => {
      const block = walkers.run({ do: 'simulate', route, seed, from, to }) as Promise<Tally>;
      const counted = block.then((tally) => {
        addTally(totals[i]!, tally);
        done(to - from);
      });
      blocks[i]!.push(counted);
    });
  });
  return routes.map(async (route, i) => {
    const range = assumptionRange(walkers, route, seed, trials);
    // waited for last: a fault is heard from the blocks first
    range.catch(() => {});
    await Promise.all(blocks[i]!);
    const tally = trimTally(totals[i]!);
    const reasons = await whyLost(walkers, route, seed, lostTrials(tally));
    return { tally, reasons, range: await range };
  });
}

/** Least and largest share of success over the designed sample of assumptions. */
export interface AssumptionRange {
  readonly low: number;
  readonly high: number;
  /** Share of success in each setting, in the order of `variations`. */
  readonly shares: readonly number[];
}

/** Attempts per setting of the assumptions: the first ones of the route, on the same days and grounds. */
const VARIED_TRIALS = 200;

async function assumptionRange(
  walkers: Walkers,
  route: Route,
  seed: number,
  trials: number,
): Promise<AssumptionRange> {
  const each = Math.min(trials, VARIED_TRIALS);
  const settings = variations().map(
    (by) => walkers.run({ do: 'vary', route, seed, trials: each, by }) as Promise<Tally>,
  );
  const shares = (await Promise.all(settings)).map((tally) => hitsOf(tally) / each);
  return { low: Math.min(...shares), high: Math.max(...shares), shares };
}

/** The first lost attempts, in order of their trials. */
function lostTrials(tally: Tally): number[] {
  const lost: number[] = [];
  for (let i = 0; i < tally.outcomeOf.length && lost.length < LOOKED_AT; i++) {
    const outcome = tally.outcomeOf[i]!;
    if (outcome !== CLEAN_HIT && outcome !== FOUND_BY_SEARCH) lost.push(tally.from + i);
  }
  return lost;
}

async function whyLost(
  walkers: Walkers,
  route: Route,
  seed: number,
  lost: readonly number[],
): Promise<ReasonTally> {
  const size = 50;
  const parts: Promise<ReasonTally>[] = [];
  for (let i = 0; i < lost.length; i += size) {
    const job = { do: 'reasons' as const, route, seed, trials: lost.slice(i, i + size) };
    parts.push(walkers.run(job) as Promise<ReasonTally>);
  }
  const answers = await Promise.all(parts);
  const first = answers[0];
  if (first === undefined) return { looked: 0, counts: new Uint32Array(0) };
  const counts = new Uint32Array(first.counts.length);
  for (const answer of answers) for (let k = 0; k < counts.length; k++) counts[k]! += answer.counts[k]!;
  return { looked: lost.length, counts };
}
