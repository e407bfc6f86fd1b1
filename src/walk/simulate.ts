import type { Route } from '../route/leg.ts';
import { Attempt } from './attempt.ts';
import { planLegs } from './planned-leg.ts';
import { countAttempt, newTally, type Tally, trimTally } from './tally.ts';
import type { World } from './world.ts';

/** Walks trials [from, to) of a route. A function of (world, route, seed, trial) alone: any split gives the same counts. */
export function simulate(world: World, route: Route, seed: number, from: number, to: number): Tally {
  const attempt = new Attempt(world, planLegs(world, route));
  const tally = newTally(route.legs.length, from, to);
  for (let trial = from; trial < to; trial++) countAttempt(tally, world, trial, attempt.run(seed, trial));
  return trimTally(tally);
}
