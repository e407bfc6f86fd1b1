import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { openPool } from '../../src/cli/node/worker-pool.ts';
import { openTask } from '../../src/cli/open-task.ts';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import type { WalkAnswer, WalkJob } from '../../src/walk/jobs.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import { hitsOf, type Tally } from '../../src/walk/tally.ts';
import type { World } from '../../src/walk/world.ts';
import type { Bench, Round } from './bench.ts';

const TRIALS = 20_000;
const BLOCK = 500;
const WORKER = new URL('walk-worker.js', import.meta.url);

/** The same attempts by one worker and by two, by the clock on the wall: no other use of the machine may disturb it. */
export const bench: Bench = {
  name: 'two workers against one',
  must: { ratio: 1.9 },
  rounds: 7,
  agree: 0,
  async prepare() {
    // the conductor of the benches holds this process to one core
    spawnSync('taskset', ['--all-tasks', '--pid', '--cpu-list', '0-1', String(process.pid)], {
      stdio: 'ignore',
    });
    const missing = !existsSync(WORKER)
      ? 'npm run build comes first'
      : availableParallelism() < 2
        ? 'this machine has one core'
        : null;
    const { task, terrain, relief } = await openTask('terrains/demo/demo.task.yaml');
    const ground = mapGround(terrain, relief ?? deriveRelief(terrain.elevation), task.features);
    const world = prepareWorld(ground, task, { seed: 1, seeing: task.seeing });
    const routes = task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i}`));
    const walkers = (count: number) => {
      const pool = openPool<World, WalkJob, WalkAnswer>(WORKER, count);
      const run = pool.under(world);
      return {
        stop: () => void pool.close().catch(() => {}),
        round: async (): Promise<Round> => {
          const start = performance.now();
          const tallies: Promise<WalkAnswer>[] = [];
          for (let from = 0; from < TRIALS; from += BLOCK)
            for (const route of routes)
              tallies.push(run({ do: 'simulate', route, seed: 1, from, to: from + BLOCK }));
          const all = (await Promise.all(tallies)) as Tally[];
          const amount = (performance.now() - start) / 1000;
          return { amount, checksum: all.reduce((sum, t) => sum + hitsOf(t), 0) };
        },
      };
    };
    if (missing !== null) return { data: '', ours: () => ({ amount: 0, checksum: 0 }), peer: { missing } };
    const two = walkers(2);
    const one = walkers(1);
    return {
      data: `${routes.length} routes × ${TRIALS} attempts of the demo, by the clock on the wall`,
      ours: two.round,
      peer: {
        version: 'one worker',
        round: one.round,
        stop: () => {
          one.stop();
          two.stop();
        },
      },
    };
  },
};
