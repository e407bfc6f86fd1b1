import { Worker } from 'node:worker_threads';
import { UserError } from '../../door/user-error.ts';
import { share } from './share.ts';

/** Answers jobs in some order of its own; each answer depends on its job and the setup alone. */
export interface Pool<Setup, Job, Answer> {
  /** Jobs under a setup, which reaches each worker once, its rasters shared. */
  under(setup: Setup): (job: Job) => Promise<Answer>;
  close(): Promise<void>;
}

export type PoolMessage<Setup, Job> =
  | { readonly setup: number; readonly value: Setup }
  | { readonly setup: number; readonly id: number; readonly job: Job };

export type AnswerMessage<Answer> =
  | { readonly id: number; readonly answer: Answer }
  | {
      readonly id: number;
      readonly fault: { readonly user: boolean; readonly message: string; readonly stack?: string };
    };

interface Waiting<Setup, Job, Answer> {
  readonly message: PoolMessage<Setup, Job>;
  readonly resolve: (answer: Answer) => void;
  readonly reject: (error: Error) => void;
}

/** Starts `count` workers on a script that calls `serveJobs`. */
export function openPool<Setup, Job, Answer>(script: URL, count: number): Pool<Setup, Job, Answer> {
  const queue: Waiting<Setup, Job, Answer>[] = [];
  const idle: Worker[] = [];
  const busy = new Map<Worker, Waiting<Setup, Job, Answer>>();
  const workers = Array.from({ length: count }, () => new Worker(script));
  let broken: Error | null = null;

  function next(): void {
    while (queue.length > 0 && idle.length > 0) {
      const worker = idle.pop()!;
      const waiting = queue.shift()!;
      busy.set(worker, waiting);
      worker.postMessage(waiting.message);
    }
  }

  function fail(error: Error): void {
    broken ??= error;
    for (const waiting of [...busy.values(), ...queue.splice(0)]) waiting.reject(broken);
    busy.clear();
  }

  for (const worker of workers) {
    idle.push(worker);
    worker.on('message', (message: AnswerMessage<Answer>) => {
      const waiting = busy.get(worker);
      busy.delete(worker);
      idle.push(worker);
      if ('fault' in message) waiting?.reject(errorOf(message.fault));
      else waiting?.resolve(message.answer);
      next();
    });
    worker.on('error', fail);
    worker.on('exit', (code) => {
      if (busy.has(worker)) fail(new Error(`a worker ended with code ${code}`));
    });
  }

  let id = 0;
  let setups = 0;
  return {
    under: (value) => {
      const setup = setups++;
      const shared = share(value);
      for (const worker of workers) worker.postMessage({ setup, value: shared });
      return (job) =>
        new Promise((resolve, reject) => {
          if (broken !== null) return reject(broken);
          queue.push({ message: { setup, id: id++, job }, resolve, reject });
          next();
        });
    },
    close: async () => {
      fail(new Error('the workers were closed'));
      await Promise.all(workers.map((worker) => worker.terminate()));
    },
  };
}

function errorOf(fault: { user: boolean; message: string; stack?: string }): Error {
  if (fault.user) return new UserError({ what: fault.message });
  const error = new Error(fault.message);
  if (fault.stack !== undefined) error.stack = fault.stack;
  return error;
}
