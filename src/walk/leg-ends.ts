import type { Route } from '../route/leg.ts';
import { Attempt } from './attempt.ts';
import { planLegs } from './planned-leg.ts';
import type { World } from './world.ts';

/** Fewer ends than this tell nothing of a tenth. */
const LEAST_ENDS = 20;

/** Seconds by which nine tenths of the attempts [0, attempts) that end a leg have ended it, one per leg; null where too few do. */
export function legEnds(world: World, route: Route, seed: number, attempts: number): (number | null)[] {
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
