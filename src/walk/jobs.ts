import type { Route } from '../route/leg.ts';
import { legEnds } from './leg-ends.ts';
import { worldInShape } from './one-shape.ts';
import { lossReasons, type ReasonTally } from './reasons.ts';
import { simulate } from './simulate.ts';
import type { Tally } from './tally.ts';
import { type Variation, varyWorld } from './vary-world.ts';
import type { World } from './world.ts';

/** Work that can be done anywhere: the answer depends on the world and the job alone. */
export type WalkJob =
  | {
      readonly do: 'vary';
      readonly route: Route;
      readonly seed: number;
      readonly trials: number;
      readonly by: Variation;
    }
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
    }
  | {
      readonly do: 'ends';
      readonly route: Route;
      readonly seed: number;
      readonly trials: number;
    };

/** Of 'ends': see `legEnds`. */
export type WalkAnswer = Tally | ReasonTally | readonly (number | null)[];

/** Worlds under other assumptions, made once per worker. */
type Varied = Map<string, World>;

/** The answering function of a worker: the world is its setup. */
export function answerWalks(given: World): (job: WalkJob) => WalkAnswer {
  const world = worldInShape(given);
  const varied: Varied = new Map();
  return (job) => {
    switch (job.do) {
      case 'simulate':
        return simulate(world, job.route, job.seed, job.from, job.to);
      case 'reasons':
        return lossReasons(world, job.route, job.seed, job.trials);
      case 'ends':
        return legEnds(world, job.route, job.seed, job.trials);
      case 'vary': {
        const key = `${job.by.errors} ${job.by.mapDoubt} ${job.by.sight}`;
        const other = varied.get(key) ?? varyWorld(world, job.by);
        varied.set(key, other);
        return simulate(other, job.route, job.seed, 0, job.trials);
      }
    }
  };
}

/** Somewhere that walks are done: this thread or many. */
export interface Walkers {
  /** A job that is wanted soon goes before others that wait, where jobs wait. */
  run(job: WalkJob, soon?: boolean): Promise<WalkAnswer>;
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
