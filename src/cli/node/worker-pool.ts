import { Worker } from 'node:worker_threads';
import { type Problem, UserError } from '../../door/user-error.ts';
import { share } from './share.ts';

/** Answers jobs in some order of its own; each answer depends on its job and the setup alone. */
export interface Pool<Setup, Job, Answer> {
  /** Jobs under a setup, which reaches each worker once, its rasters shared. Those wanted soon are begun before all others. */
  under(setup: Setup): (job: Job, soon?: boolean) => Promise<Answer>;
  close(): Promise<void>;
}

/** Two lanes of jobs, each in the order in which they were given: those wanted soon, then the others. */
export const LANES = 2;

export type PoolMessage<Setup, Job> =
  /** Numbers of the jobs that are to be taken next, one per lane, in shared memory. */
  { readonly next: Int32Array } | { readonly setup: number; readonly value: Setup } | PoolJob<Job>;

export interface PoolJob<Job> {
  readonly setup: number;
  readonly lane: number;
  /** Counted within the lane. */
  readonly number: number;
  readonly job: Job;
}

export interface AnswerMessage<Answer> {
  readonly lane: number;
  readonly number: number;
  readonly answer?: Answer;
  readonly fault?: WorkerFault;
}

/** A fault of ours by its message, one of the user's by its parts. */
type WorkerFault = { readonly user: Problem } | { readonly message: string; readonly stack?: string };

interface Waiting<Answer> {
  readonly resolve: (answer: Answer) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Starts `count` workers on a script that calls `serveJobs`. Every job goes to every worker and is done by the one that takes it first, so
 * that no worker waits for this thread while it is busy with something else.
 */
export function openPool<Setup, Job, Answer>(script: URL, count: number): Pool<Setup, Job, Answer> {
  const waiting = Array.from({ length: LANES }, () => new Map<number, Waiting<Answer>>());
  const workers = Array.from({ length: count }, () => new Worker(script));
  const given = new Int32Array(LANES);
  let broken: Error | null = null;

  function fail(error: Error): void {
    broken ??= error;
    for (const lane of waiting) {
      for (const { reject } of lane.values()) reject(broken);
      lane.clear();
    }
  }

  const next = new Int32Array(new SharedArrayBuffer(LANES * Int32Array.BYTES_PER_ELEMENT));
  for (const worker of workers) {
    worker.postMessage({ next } satisfies PoolMessage<Setup, Job>);
    worker.on('message', ({ lane, number, answer, fault }: AnswerMessage<Answer>) => {
      const asked = waiting[lane]!.get(number);
      waiting[lane]!.delete(number);
      if (fault !== undefined) asked?.reject(errorOf(fault));
      else asked?.resolve(answer as Answer);
    });
    worker.on('error', fail);
    worker.on('exit', (code) => fail(new Error(`a worker ended with code ${code}`)));
  }

  let setups = 0;
  return {
    under: (value) => {
      const setup = setups++;
      const shared = share(value);
      for (const worker of workers) worker.postMessage({ setup, value: shared });
      return (job, soon = false) =>
        new Promise((resolve, reject) => {
          if (broken !== null) return reject(broken);
          const lane = soon ? 0 : 1;
          const number = given[lane]!++;
          waiting[lane]!.set(number, { resolve, reject });
          const message: PoolJob<Job> = { setup, lane, number, job };
          for (const worker of workers) worker.postMessage(message);
        });
    },
    close: async () => {
      fail(new Error('the workers were closed'));
      await Promise.all(workers.map((worker) => worker.terminate()));
    },
  };
}

function errorOf(fault: WorkerFault): Error {
  if ('user' in fault) return new UserError(fault.user);
  const error = new Error(fault.message);
  if (fault.stack !== undefined) error.stack = fault.stack;
  return error;
}
