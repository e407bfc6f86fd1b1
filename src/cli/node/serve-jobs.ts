import { parentPort, receiveMessageOnPort } from 'node:worker_threads';
import { UserError } from '../../door/user-error.ts';
import { type AnswerMessage, LANES, type PoolJob, type PoolMessage } from './worker-pool.ts';

/** The worker's side of a pool: makes an answering function from each setup once it is asked for, then answers what no other worker has taken. */
export function serveJobs<Setup, Job, Answer>(prepare: (setup: Setup) => (job: Job) => Answer): void {
  if (parentPort === null) throw new Error('serveJobs runs in a worker only');
  const port = parentPort;
  const setups = new Map<number, Setup>();
  const answers = new Map<number, (job: Job) => Answer>();
  const lanes = Array.from({ length: LANES }, (): PoolJob<Job>[] => []);
  let next = new Int32Array(LANES);

  function note(message: PoolMessage<Setup, Job>): void {
    if ('next' in message) next = message.next as Int32Array<ArrayBuffer>;
    else if ('value' in message) setups.set(message.setup, message.value);
    else lanes[message.lane]!.push(message);
  }

  /** Every worker hears of the jobs in one order, so the number to be taken next is never before the first one here. */
  function take(): PoolJob<Job> | null {
    for (let hint = receiveMessageOnPort(port); hint !== undefined; hint = receiveMessageOnPort(port))
      note(hint.message);
    for (const lane of lanes) {
      for (let job = lane.shift(); job !== undefined; job = lane.shift())
        if (Atomics.compareExchange(next, job.lane, job.number, job.number + 1) === job.number) return job;
    }
    return null;
  }

  function answer({ setup, lane, number, job }: PoolJob<Job>): AnswerMessage<Answer> {
    try {
      const ask = answers.get(setup) ?? prepare(setups.get(setup) as Setup);
      answers.set(setup, ask);
      return { lane, number, answer: ask(job) };
    } catch (error) {
      if (error instanceof UserError) return { lane, number, fault: { user: error.parts } };
      const { message: text, stack } = error instanceof Error ? error : new Error(String(error));
      return { lane, number, fault: { message: text, ...(stack === undefined ? {} : { stack }) } };
    }
  }

  port.on('message', (message: PoolMessage<Setup, Job>) => {
    note(message);
    for (let job = take(); job !== null; job = take()) port.postMessage(answer(job));
  });
}
