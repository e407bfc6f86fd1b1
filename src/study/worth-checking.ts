import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import { type Interval, pairedDifference, wilson } from '../math/proportion.ts';
import { doubtfulOn } from '../route/doubtful.ts';
import type { Route } from '../route/leg.ts';
import { SampledGround } from '../walk/sampled-ground.ts';
import { CLEAN_HIT, FOUND_BY_SEARCH, type Tally } from '../walk/tally.ts';
import type { World } from '../walk/world.ts';
import type { Task } from './task.ts';

/** Attempts and finds on a route on those days on which a feature was there, or was not. */
export interface Split extends Interval {
  readonly trials: number;
  readonly share: number;
}

/** A feature that a route leans on, and how much hangs on it. */
export interface Leaning {
  readonly feature: Feature;
  readonly there: Split;
  readonly gone: Split;
}

/** A feature that is worth a look, or a call, before setting out: what one would do either way, and what that gains. */
export interface Check {
  readonly feature: Feature;
  /** Ids of the routes to take where it is there, where it is gone, and without knowing. */
  readonly ifThere: string;
  readonly ifGone: string;
  readonly unknowing: string;
  /** Share of attempts, with its paired 95 % interval. */
  readonly gain: Interval & { readonly difference: number };
}

export interface WorthChecking {
  readonly leanings: ReadonlyMap<string, readonly Leaning[]>;
  readonly checks: readonly Check[];
}

interface Attempted {
  readonly route: Route;
  readonly tally: Tally;
}

/** Features looked at, the most doubtful first, and attempts without the feature below which nothing is said. */
const MOST_FEATURES = 12;
const LEAST_TRIALS = 40;
/** A gain of less, of all attempts, is not worth a call. */
const LEAST_GAIN = 0.005;
/** Things said of one route, those on which most hangs. */
const MOST_SAID = 3;

/**
 * What knowing of one doubtful feature beforehand would change. Every attempt has its own true ground, so the reported attempts part into those where
 * the feature is there and those where it is not: P(q) = q·P(1) + (1−q)·P(0), trial by trial, without a walk more.
 *
 * The value of a check is the gain from choosing the route by its answer: routes are chosen on the even attempts and their gain counted on the odd
 * ones, or the choice would flatter itself. What is inside the noise is left out.
 */
export function worthChecking(
  task: Task,
  ground: MappedGround,
  world: World,
  attempted: readonly Attempted[],
): WorthChecking {
  const sampled = new SampledGround(world);
  const relied = new Map(attempted.map(({ route }) => [route.id, doubtfulOn(route, task, ground)]));
  const features = [...new Set([...relied.values()].flat())]
    .sort((a, b) => a.doubt.exists - b.doubt.exists || (a.id < b.id ? -1 : 1))
    .slice(0, MOST_FEATURES);
  const leanings = new Map<string, Leaning[]>();
  const checks: Check[] = [];
  const trials = attempted[0] === undefined ? 0 : attempted[0].tally.to - attempted[0].tally.from;
  for (const feature of features) {
    const there = thereOn(sampled, feature, task.seed, trials);
    if (there === null) continue;
    for (const { route, tally } of attempted) {
      if (!relied.get(route.id)!.includes(feature)) continue;
      const leaning = { feature, there: split(tally, there, 1), gone: split(tally, there, 0) };
      if (!matters(leaning)) continue;
      leanings.set(route.id, [...(leanings.get(route.id) ?? []), leaning]);
    }
    const check = checkOf(feature, attempted, there);
    if (check !== null && check.gain.low >= LEAST_GAIN) checks.push(check);
  }
  for (const [id, list] of leanings)
    leanings.set(id, list.sort((a, b) => weight(b) - weight(a)).slice(0, MOST_SAID));
  checks.sort((a, b) => b.gain.difference - a.gain.difference);
  return { leanings, checks };
}

/** Finds that hang on it: how much its absence costs, times how often it is gone. */
function weight({ there, gone }: Leaning): number {
  return (Math.abs(there.share - gone.share) * gone.trials) / (there.trials + gone.trials);
}

/** Per attempt: 1 where the feature is there; null for one that no walk meets. */
function thereOn(sampled: SampledGround, feature: Feature, seed: number, trials: number): Uint8Array | null {
  const line = sampled.world.lineById.get(feature.id);
  const spot = sampled.world.spotById.get(feature.id);
  if (line === undefined && spot === undefined) return null;
  const there = new Uint8Array(trials);
  for (let trial = 0; trial < trials; trial++) {
    sampled.begin(seed, trial, 0);
    if (line !== undefined) {
      sampled.line(line);
      there[trial] = sampled.lineThere[line]!;
    } else {
      sampled.spot(spot!);
      there[trial] = sampled.spotThere[spot!]!;
    }
  }
  return there;
}

function split(tally: Tally, there: Uint8Array, which: number): Split {
  let trials = 0;
  let hits = 0;
  for (let i = 0; i < there.length; i++) {
    if (there[i] !== which) continue;
    trials++;
    if (isHit(tally, i)) hits++;
  }
  return trials === 0
    ? { trials, share: 0, low: 0, high: 1 }
    : { trials, share: hits / trials, ...wilson(hits, trials) };
}

/** Two shares of separate attempts that differ by more than their joint interval (Newcombe 1998, method 10). */
function matters({ there, gone }: Leaning): boolean {
  if (there.trials < LEAST_TRIALS || gone.trials < LEAST_TRIALS) return false;
  const d = Math.abs(there.share - gone.share);
  const [upper, lower] = there.share >= gone.share ? [there, gone] : [gone, there];
  const a = upper.share - upper.low;
  const b = lower.high - lower.share;
  return d > Math.sqrt(a * a + b * b);
}

/** The routes that would be taken, chosen on the even attempts and judged on the odd ones; null where no answer changes the choice. */
function checkOf(feature: Feature, attempted: readonly Attempted[], there: Uint8Array): Check | null {
  const best = (wanted: (trial: number) => boolean): Attempted | undefined => {
    let surest: Attempted | undefined;
    let most = -1;
    for (const one of attempted) {
      let hits = 0;
      for (let i = 0; i < there.length; i += 2) if (wanted(i) && isHit(one.tally, i)) hits++;
      if (hits > most) {
        most = hits;
        surest = one;
      }
    }
    return surest;
  };
  const unknowing = best(() => true);
  const ifThere = best((i) => there[i] === 1);
  const ifGone = best((i) => there[i] === 0);
  if (!unknowing || !ifThere || !ifGone || (ifThere === unknowing && ifGone === unknowing)) return null;
  const counts = { both: 0, onlyFirst: 0, onlySecond: 0, neither: 0 };
  for (let i = 1; i < there.length; i += 2) {
    const a = isHit((there[i] === 1 ? ifThere : ifGone).tally, i);
    const b = isHit(unknowing.tally, i);
    if (a && b) counts.both++;
    else if (a) counts.onlyFirst++;
    else if (b) counts.onlySecond++;
    else counts.neither++;
  }
  if (counts.both + counts.onlyFirst + counts.onlySecond + counts.neither === 0) return null;
  return {
    feature,
    ifThere: ifThere.route.id,
    ifGone: ifGone.route.id,
    unknowing: unknowing.route.id,
    gain: pairedDifference(counts),
  };
}

function isHit(tally: Tally, i: number): boolean {
  const outcome = tally.outcomeOf[i]!;
  return outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH;
}
