import { openTask } from '../../src/cli/open-task.ts';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import { simulate } from '../../src/walk/simulate.ts';
import { addTally, hitsOf, newTally } from '../../src/walk/tally.ts';
import type { Bench, Round } from './bench.ts';

const TRIALS = 4000;

async function demo() {
  const { task, terrain, relief } = await openTask('terrains/demo/demo.task.yaml');
  const ground = mapGround(terrain, relief ?? deriveRelief(terrain.elevation), task.features);
  const world = prepareWorld(ground, task, { seed: 1, seeing: task.seeing });
  const routes = task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i}`));
  return { world, routes };
}

/** The whole walker, drawn routes of the demo task in turn: all of it, per step of 10 m. */
const perStep: Bench = {
  name: 'the whole walker on the demo, per step',
  must: { most: 333, unit: 'ns' },
  rounds: 5,
  agree: 0,
  async prepare() {
    const { world, routes } = await demo();
    const attempts = routes.map((r) => new Attempt(world, planLegs(world, r)));
    return {
      data: `${routes.length} routes × ${TRIALS} trials`,
      ours: () => {
        const steps = () => attempts.reduce((sum, a) => sum + a.stepsTaken, 0);
        const before = steps();
        const start = process.cpuUsage();
        let sum = 0;
        for (const a of attempts)
          for (let t = 0; t < TRIALS; t++) sum = (sum + Math.round(a.run(1, t).seconds)) | 0;
        const { user, system } = process.cpuUsage(start);
        return { amount: ((user + system) * 1000) / (steps() - before), checksum: sum };
      },
    };
  },
};

/** What is left on the heap by a million steps: nothing grows with them. */
const heap: Bench = {
  name: 'heap growth over a million steps',
  must: { most: 100, unit: 'kB' },
  rounds: 3,
  agree: 0,
  async prepare() {
    const { world, routes } = await demo();
    const attempt = new Attempt(world, planLegs(world, routes[1]!));
    return {
      data: routes[1]!.name,
      ours: (): Round => {
        const collect = (globalThis as { gc?: () => void }).gc ?? (() => {});
        collect();
        const before = process.memoryUsage().heapUsed;
        const from = attempt.stepsTaken;
        for (let t = 0; attempt.stepsTaken - from < 1e6; t++) attempt.run(1, t);
        collect();
        return { amount: (process.memoryUsage().heapUsed - before) / 1000, checksum: 0 };
      },
    };
  },
};

/** A million trials of one route: what is kept is sums, end points of the first, and three bytes a trial. */
const million: Bench = {
  name: 'memory of a million trials of one route',
  must: { most: 60, unit: 'MB' },
  rounds: 0,
  agree: 0,
  async prepare() {
    const { world, routes } = await demo();
    return {
      data: routes[0]!.name,
      ours: (): Round => {
        const before = process.memoryUsage();
        const total = newTally(routes[0]!.legs.length, 0, 1e6);
        let most = 0;
        for (let from = 0; from < 1e6; from += 1000) {
          addTally(total, simulate(world, routes[0]!, 1, from, from + 1000));
          if (from % 50_000 === 0) {
            const now = process.memoryUsage();
            most = Math.max(most, now.heapUsed + now.arrayBuffers - before.heapUsed - before.arrayBuffers);
          }
        }
        return { amount: most / 1e6, checksum: hitsOf(total) };
      },
    };
  },
};

export const bench = [perStep, heap, million];
export const environment = { NODE_OPTIONS: '--expose-gc' };
