import type { Walkers } from '../walk/jobs.ts';
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

/** By id of a route. The attempts are those that were counted, under their own numbers. */
export async function sampleWalks(
  world: World,
  walked: readonly Walked[],
  seed: number,
  walkers: Walkers,
): Promise<ReadonlyMap<string, Told>> {
  const leading = [...walked]
    .sort((a, b) => hitsOf(b.tally) - hitsOf(a.tally))
    .slice(0, ROUTES)
    .map((w) => w.route.id);
  const ends = walked.map(({ route, tally }) =>
    walkers.run({ do: 'ends', route, seed, trials: Math.min(LOOKED_AT, tally.to - tally.from) }),
  );
  const stories = walked.map(({ route, tally }) => {
    const trials = leading.includes(route.id) ? firstOfBoth(tally.outcomeOf, tally.from) : [];
    return trials.map((t) => tellTrial(world, route, seed, t));
  });
  const legSeconds = (await Promise.all(ends)) as (number | null)[][];
  return new Map(
    walked.map(({ route }, i): [string, Told] => [
      route.id,
      { legSeconds: legSeconds[i]!, walks: stories[i]! },
    ]),
  );
}

/** The first find and the first attempt without one: not chosen for their looks. */
function firstOfBoth(outcomes: Uint8Array, from: number): number[] {
  const hit = (outcome: number) => outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH;
  const first = [outcomes.findIndex(hit), outcomes.findIndex((o) => !hit(o))];
  return first.filter((i) => i >= 0).map((i) => from + i);
}
