import { availableParallelism } from 'node:os';
import { answerWalks, type WalkAnswer, type Walkers, type WalkJob } from '../../walk/jobs.ts';
import type { World } from '../../walk/world.ts';
import { openPool } from './worker-pool.ts';

/** Walkers in any number of worlds. */
export interface AllWalkers {
  in(world: World): Walkers;
  close(): Promise<void>;
}

/**
 * Walks in as many workers as wanted, by default one per core; one wanted is this thread. They start at once, while the ground is read,
 * and walk in whatever world they are asked to.
 */
export function openWalkers(count = availableParallelism()): AllWalkers {
  if (count <= 1) return { in: inThisThread, close: async () => {} };
  const pool = openPool<World, WalkJob, WalkAnswer>(new URL('walk-worker.js', import.meta.url), count);
  return {
    in: (world) => ({ run: pool.under(world), close: async () => {} }),
    close: pool.close,
  };
}

function inThisThread(world: World): Walkers {
  const answer = answerWalks(world);
  let before: Promise<unknown> = Promise.resolve();
  let closed = false;
  const walk = async (job: WalkJob) => {
    // Between jobs the program hears Ctrl-C and draws its progress.
    await new Promise((resolve) => setImmediate(resolve));
    if (closed) throw new Error('the walkers were sent home');
    return answer(job);
  };
  return {
    run: (job) => {
      const mine = before.then(() => walk(job));
      before = mine.catch(() => {});
      return mine;
    },
    close: async () => {
      closed = true;
    },
  };
}
