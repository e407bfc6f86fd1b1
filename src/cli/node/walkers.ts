import { availableParallelism } from 'node:os';
import { answerWalks, type WalkAnswer, type Walkers, type WalkJob } from '../../walk/jobs.ts';
import type { World } from '../../walk/world.ts';
import { openPool, type Pool } from './worker-pool.ts';

/**
 * Walks in as many workers as wanted, by default one per core; one wanted is this thread. Worlds that are asked for while another is
 * in use are walked by the same workers, which are warm by then.
 */
export function walkersFor(count = availableParallelism()): (world: World) => Walkers {
  if (count <= 1) return inThisThread;
  let pool: Pool<World, WalkJob, WalkAnswer> | null = null;
  let open = 0;
  return (world) => {
    pool ??= openPool<World, WalkJob, WalkAnswer>(new URL('walk-worker.js', import.meta.url), count);
    const mine = pool;
    const run = mine.under(world);
    open++;
    return {
      run,
      close: async () => {
        if (--open > 0) return;
        pool = null;
        await mine.close();
      },
    };
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
