import { mean, sampleStandardDeviation } from 'simple-statistics';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { type Interval, pairedDifference } from '../math/proportion.ts';
import { hashText } from '../math/random.ts';
import type { ChangeKind } from '../route/changes/made.ts';
import { type Change, changesOf } from '../route/improve.ts';
import type { Route } from '../route/leg.ts';
import { planningOf } from '../route/planning.ts';
import { searchGround } from '../route/window.ts';
import type { Walkers } from '../walk/jobs.ts';
import { CLEAN_HIT, FOUND_BY_SEARCH, hitsOf, type Tally } from '../walk/tally.ts';
import { type Round, race, runnerOf, shareOf } from './racing.ts';
import type { Task } from './task.ts';

/** After minus before, over the same attempts. */
export interface Difference extends Interval {
  readonly difference: number;
}

/** A change to a route that helps beyond the noise. */
export interface Helped {
  readonly kind: ChangeKind;
  readonly says: string;
  /** Share of attempts. */
  readonly success: Difference;
  /** Mean over all attempts. */
  readonly minutes: Difference;
}

/** What one change could do for a route. */
export interface Improvement {
  /** Changes looked at, and attempts with which the best of them were confirmed. */
  readonly looked: number;
  readonly trials: number;
  /** The most helpful first; empty when nothing looked at helps beyond the noise. */
  readonly helped: readonly Helped[];
}

/** Routes that are looked at, changes of each that are confirmed, and with how many of the reported attempts. Fixed, never by the clock. */
const ROUTES = 3;
const CONFIRMED = 3;
const TRIALS = 1000;
const ROUNDS: readonly Round[] = [
  { attempts: 60, goOn: 6 },
  { attempts: 180, goOn: CONFIRMED },
];
/** Two-sided 95 % for all the changes confirmed on a route together (Bonferroni): the normal quantile of 1 − .05/6. */
const Z = 2.394;
/** What saves less is not worth saying, minutes; and it may not cost more finds than this. */
const LEAST_MINUTES = 1;
const MOST_COST = 0.005;

interface Before {
  readonly route: Route;
  readonly tally: Tally;
}

/**
 * One change at a time for the routes that people drew, and for the best found one where fewer were drawn: changes are screened
 * under a key of their own, and the promising ones walked on the reported attempts of the route itself, which had no part in choosing
 * them. Same days, same grounds: differences are paired.
 */
export async function improvements(
  task: Task,
  ground: MappedGround,
  walked: readonly Before[],
  walkers: Walkers,
): Promise<ReadonlyMap<string, Improvement>> {
  const planning = planningOf(searchGround(ground, task), task);
  const improved = leading(walked).map(async (before): Promise<[string, Improvement]> => {
    const changes = changesOf(before.route, planning);
    const promising = await screened(before.route, changes, task, walkers);
    const trials = Math.min(TRIALS, before.tally.to - before.tally.from);
    const judged = await Promise.all(
      promising.map(async (change) => {
        const job = { do: 'simulate' as const, route: change.route, seed: task.seed, from: 0, to: trials };
        return judge(change, before.tally, (await walkers.run(job, true)) as Tally);
      }),
    );
    const helped = judged.filter(helps).sort((a, b) => b.success.difference - a.success.difference);
    return [before.route.id, { looked: changes.length, trials, helped }];
  });
  return new Map(await Promise.all(improved));
}

/** The routes that people drew, the surest first, then the surest found ones, which the race has bettered already. */
function leading(walked: readonly Before[]): Before[] {
  return walked
    .map((w, i) => ({ w, i, hits: hitsOf(w.tally), drawn: w.route.origin === 'drawn' }))
    .sort((a, b) => Number(b.drawn) - Number(a.drawn) || b.hits - a.hits || a.i - b.i)
    .slice(0, ROUTES)
    .map(({ w }) => w);
}

async function screened(
  route: Route,
  changes: readonly Change[],
  task: Task,
  walkers: Walkers,
): Promise<Change[]> {
  const base = runnerOf(route, true);
  const runners = changes.map((change) => runnerOf(change.route));
  const rounds = ROUNDS.map((r) => ({ ...r, attempts: Math.min(r.attempts, task.trials) }));
  const raced = await race(walkers, [base, ...runners], hashText(`improving ${task.seed}`), rounds);
  const minutes = (seconds: number[]) => mean(seconds) / 60;
  return raced
    .slice(0, CONFIRMED + 1)
    .filter((r) => r !== base)
    .filter((r) => shareOf(r) > shareOf(base) || minutes(r.seconds) < minutes(base.seconds) - LEAST_MINUTES)
    .map((r) => changes[runners.indexOf(r)]!);
}

/** A change against the route as it is, attempt by attempt. */
export function judge(change: Change, before: Tally, after: Tally): Helped {
  const n = after.to - after.from;
  const counts = { both: 0, onlyFirst: 0, onlySecond: 0, neither: 0 };
  const slower: number[] = [];
  for (let i = 0; i < n; i++) {
    const a = isHit(after.outcomeOf[i]!);
    const b = isHit(before.outcomeOf[i]!);
    if (a && b) counts.both++;
    else if (a) counts.onlyFirst++;
    else if (b) counts.onlySecond++;
    else counts.neither++;
    slower.push((after.secondsOf[i]! - before.secondsOf[i]!) / 60);
  }
  const difference = mean(slower);
  const half = n > 1 ? (Z * sampleStandardDeviation(slower)) / Math.sqrt(n) : 0;
  return {
    kind: change.kind,
    says: change.says,
    success: pairedDifference(counts, Z),
    minutes: { difference, low: difference - half, high: difference + half },
  };
}

function isHit(outcome: number): boolean {
  return outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH;
}

function helps({ success, minutes }: Helped): boolean {
  if (success.low > 0) return true;
  return minutes.high < -LEAST_MINUTES && success.difference > -MOST_COST;
}
