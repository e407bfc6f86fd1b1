import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Route } from '../route/leg.ts';
import type { Walkers } from '../walk/jobs.ts';
import { prepareWorld } from '../walk/prepare-world.ts';
import { hitsOf, type Tally } from '../walk/tally.ts';
import type { World } from '../walk/world.ts';
import type { Walked } from './compare.ts';
import type { Task } from './task.ts';
import { turnedRoute } from './turned-route.ts';

/** A way from the target back to the start that simulated parties followed. */
export interface WayOut {
  readonly route: Route;
  readonly trials: number;
  /** Parties that entered a hazard. */
  readonly hazardTrials: number;
}

/** Fixed, never by the clock: ways looked at, and attempts on each and on the one that is told. */
const WAYS = 3;
const LOOK = 200;
const TRIALS = 1000;
/** A way that fewer parties walk to its end is no way out. Common practice, no source. */
const LEAST_ARRIVING = 0.9;

/**
 * Of the routes that most parties find the target by, walked back: the one on which fewest enter a hazard, under the same conditions
 * without a time limit. Null where hazards are not
 * assessed, where the start is no feature that can be known again, or where parties do not arrive.
 */
export async function tryWayOut(
  task: Task,
  mapped: MappedGround,
  walked: readonly Walked[],
  walkersFor: (world: World) => Walkers,
): Promise<WayOut | null> {
  const { feature: start } = task.start;
  if (!mapped.hazardsMapped || start === null || start.id === task.target.feature.id) return null;
  // the party has stood there: it knows that the start is there, and where
  const feature = { ...start, doubt: { ...start.doubt, exists: 1, positionMetres: 0 } };
  const features = mapped.features.map((f) => (f.id === start.id ? feature : f));
  const ground = { ...mapped, features, byId: new Map(features.map((f) => [f.id, f])) };
  const back: Task = {
    ...task,
    features: task.features.map((f) => (f.id === start.id ? feature : f)),
    start: { at: task.target.at, feature: task.target.feature },
    target: { at: task.start.at, feature },
    limits: { ...task.limits, minutes: null, turnRoundMinutes: null },
  };
  const ways = [...walked]
    .sort((a, b) => hitsOf(b.tally) - hitsOf(a.tally))
    .slice(0, WAYS)
    .map(({ route }) => turnedRoute(route, start.id));
  const world = prepareWorld(ground, back, { seed: task.seed, seeing: task.seeing });
  const walkers = walkersFor(world);
  const walk = (route: Route, to: number) =>
    walkers.run({ do: 'simulate', route, seed: task.seed, from: 0, to }) as Promise<Tally>;
  try {
    const looks = await Promise.all(ways.map((route) => walk(route, LOOK)));
    let best = -1;
    looks.forEach((look, i) => {
      const arriving = hitsOf(look) / LOOK >= LEAST_ARRIVING;
      if (arriving && (best < 0 || look.hazard < looks[best]!.hazard)) best = i;
    });
    if (best < 0) return null;
    const tally = await walk(ways[best]!, TRIALS);
    return { route: ways[best]!, trials: TRIALS, hazardTrials: tally.hazard };
  } finally {
    await walkers.close();
  }
}
