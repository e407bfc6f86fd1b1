import type { Route } from '../../src/route/leg.ts';
import { Attempt, type AttemptResult } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import type { World } from '../../src/walk/world.ts';

/** Four standard errors of a share, or the tolerance that the scenario states, whichever is more. */
export function within(share: number, trials: number, stated = 0.04): number {
  return Math.max(4 * Math.sqrt(Math.max(share * (1 - share), 0.5 / trials) / trials), stated);
}

/** Share of trials for which `is` holds. */
export function shareOf(
  world: World,
  plan: Route,
  trials: number,
  is: (r: AttemptResult, trial: number) => boolean = (r) => r.found,
  seed = 1,
): number {
  const attempt = new Attempt(world, planLegs(world, plan));
  let n = 0;
  for (let trial = 0; trial < trials; trial++) if (is(attempt.run(seed, trial), trial)) n++;
  return n / trials;
}

/** Where each trial stood when it came to the end of its plan: east, north, east, north … Only trials that found nothing by then. */
export function stops(world: World, plan: Route, trials: number, seed = 1): Float64Array {
  const attempt = new Attempt(world, planLegs(world, plan));
  const places = new Float64Array(2 * trials).fill(Number.NaN);
  let now = 0;
  attempt.watcher = {
    event(kind, body) {
      if (kind !== 'searches') return;
      places[2 * now] = body.x;
      places[2 * now + 1] = body.y;
    },
  };
  for (now = 0; now < trials; now++) attempt.run(seed, now);
  return places;
}

/** Share of stops within r of a place. */
export function stoppedWithin(places: Float64Array, x: number, y: number, r: number): number {
  let n = 0;
  for (let i = 0; i < places.length; i += 2) {
    const dx = places[i]! - x;
    const dy = places[i + 1]! - y;
    if (dx * dx + dy * dy <= r * r) n++;
  }
  return n / (places.length / 2);
}
