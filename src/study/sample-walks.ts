import type { Route } from '../route/leg.ts';
import { Attempt } from '../walk/attempt.ts';
import { planLegs } from '../walk/planned-leg.ts';
import { type Story, tellTrial } from '../walk/story.ts';
import { CLEAN_HIT, FOUND_BY_SEARCH, hitsOf } from '../walk/tally.ts';
import type { World } from '../walk/world.ts';
import type { Walked } from './compare.ts';

/** What is told of a route's attempts beyond their counts. */
export interface Told {
  /** Seconds by which nine tenths of the attempts that end a leg have ended it, one per leg; null where too few do. */
  readonly legSeconds: readonly (number | null)[];
  /** Single attempts: the first that finds the target and the first that does not; empty but for the leading routes. */
  readonly walks: readonly Story[];
}

/** Fixed, never by the clock: attempts looked at for the ends of legs, routes of which attempts are told. */
const LOOKED_AT = 200;
const ROUTES = 3;
/** Fewer ends than this tell nothing of a tenth. */
const LEAST_ENDS = 20;

/** By id of a route. The attempts are those that were counted, under their own numbers. */
export function sampleWalks(
  world: World,
  walked: readonly Walked[],
  seed: number,
): ReadonlyMap<string, Told> {
  const leading = [...walked]
    .sort((a, b) => hitsOf(b.tally) - hitsOf(a.tally))
    .slice(0, ROUTES)
    .map((w) => w.route.id);
  return new Map(
    walked.map(({ route, tally }): [string, Told] => {
      const trials = leading.includes(route.id) ? firstOfBoth(tally.outcomeOf, tally.from) : [];
      const legSeconds = legEnds(world, route, seed, Math.min(LOOKED_AT, tally.to - tally.from));
      return [route.id, { legSeconds, walks: trials.map((t) => tellTrial(world, route, seed, t)) }];
    }),
  );
}

/** The first find and the first attempt without one: not chosen for their looks. */
function firstOfBoth(outcomes: Uint8Array, from: number): number[] {
  const hit = (outcome: number) => outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH;
  const first = [outcomes.findIndex(hit), outcomes.findIndex((o) => !hit(o))];
  return first.filter((i) => i >= 0).map((i) => from + i);
}

function legEnds(world: World, route: Route, seed: number, attempts: number): (number | null)[] {
  const ends: number[][] = route.legs.map(() => []);
  const attempt = new Attempt(world, planLegs(world, route));
  let seen = 0;
  attempt.watcher = {
    event: (kind, body, _mind, leg) => {
      // a leg ends where the next begins, the last where the target is declared; what comes after a relaunch does not count
      const ended = kind === 'leg' ? leg - 1 : kind === 'found' ? leg : -1;
      if (ended < seen) return;
      seen = ended + 1;
      ends[ended]?.push(body.clock);
    },
  };
  for (let trial = 0; trial < attempts; trial++) {
    seen = 0;
    attempt.run(seed, trial);
  }
  return ends.map((clocks) => {
    if (clocks.length < LEAST_ENDS) return null;
    clocks.sort((a, b) => a - b);
    return clocks[Math.ceil(clocks.length * 0.9) - 1]!;
  });
}
