import type { Route } from '../route/leg.ts';
import { lossReasons, type ReasonTally } from './reasons.ts';
import { simulate } from './simulate.ts';
import type { Tally } from './tally.ts';
import type { World } from './world.ts';

/** Work that can be done anywhere: the answer depends on the world and the job alone. */
export type WalkJob =
  | {
      readonly do: 'simulate';
      readonly route: Route;
      readonly seed: number;
      readonly from: number;
      readonly to: number;
    }
  | {
      readonly do: 'reasons';
      readonly route: Route;
      readonly seed: number;
      readonly trials: readonly number[];
    };

export type WalkAnswer = Tally | ReasonTally;

/** The answering function of a worker: the world is its setup. */
export function answerWalks(world: World): (job: WalkJob) => WalkAnswer {
  return (job) =>
    job.do === 'simulate'
      ? simulate(world, job.route, job.seed, job.from, job.to)
      : lossReasons(world, job.route, job.seed, job.trials);
}

/** Somewhere that walks are done: this thread or many. */
export interface Walkers {
  run(job: WalkJob): Promise<WalkAnswer>;
  close(): Promise<void>;
}

/** Walks on the calling thread. */
export function walkHere(world: World): Walkers {
  const answer = answerWalks(world);
  return {
    run: async (job) => answer(job),
    close: async () => {},
  };
}
