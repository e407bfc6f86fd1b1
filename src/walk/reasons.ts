import type { Route } from '../route/leg.ts';
import { Attempt, type AttemptResult } from './attempt.ts';
import { MUTE_DAY, MUTE_GROUND, MUTE_LEG, MUTE_SEEING, MUTE_STEP } from './keys.ts';
import { planLegs } from './planned-leg.ts';
import { CLEAN_HIT, FOUND_BY_SEARCH, outcomeOf } from './tally.ts';
import type { World } from './world.ts';

/** Which error lost an attempt, in the order in which they are tried: one left out at a time, everything else the same. */
export const REASON_ORDER = ['ground', 'party-day', 'leg', 'step', 'seeing', 'several'] as const;
const MUTES = [MUTE_GROUND, MUTE_DAY, MUTE_LEG, MUTE_STEP, MUTE_SEEING];

/** Counts by leg (row) and reason (column, in `REASON_ORDER`) over the lost attempts that were walked again. */
export interface ReasonTally {
  readonly looked: number;
  readonly counts: Uint32Array;
}

/** Walks lost attempts again, each time without one kind of error, until one of them makes it a find. */
export function lossReasons(
  world: World,
  route: Route,
  seed: number,
  trials: readonly number[],
): ReasonTally {
  const attempt = new Attempt(world, planLegs(world, route));
  const columns = REASON_ORDER.length;
  const counts = new Uint32Array(Math.max(1, route.legs.length) * columns);
  for (const trial of trials) {
    const leg = attempt.run(seed, trial).lostOnLeg;
    let reason = 0;
    while (reason < MUTES.length && !isHit(world, attempt.run(seed, trial, MUTES[reason]!))) reason++;
    counts[leg * columns + reason]!++;
  }
  return { looked: trials.length, counts };
}

function isHit(world: World, r: AttemptResult): boolean {
  const outcome = outcomeOf(world, r);
  return outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH;
}
