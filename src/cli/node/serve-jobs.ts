import { parentPort } from 'node:worker_threads';
import { UserError } from '../../door/user-error.ts';
import type { AnswerMessage, PoolMessage } from './worker-pool.ts';

/** The worker's side of a pool: makes an answering function from each setup once it is asked for, then answers job by job. */
export function serveJobs<Setup, Job, Answer>(prepare: (setup: Setup) => (job: Job) => Answer): void {
  const port = parentPort;
  if (port === null) throw new Error('serveJobs runs in a worker only');
  const setups = new Map<number, Setup>();
  const answers = new Map<number, (job: Job) => Answer>();
  port.on('message', (message: PoolMessage<Setup, Job>) => {
    if ('value' in message) {
      setups.set(message.setup, message.value);
      return;
    }
    const { id, job, setup } = message;
    const say = (answer: AnswerMessage<Answer>) => port.postMessage(answer);
    try {
      const answer = answers.get(setup) ?? prepare(setups.get(setup) as Setup);
      answers.set(setup, answer);
      say({ id, answer: answer(job) });
    } catch (error) {
      const { message: text, stack } = error instanceof Error ? error : new Error(String(error));
      const user = error instanceof UserError;
      say({ id, fault: { user, message: text, ...(stack === undefined ? {} : { stack }) } });
    }
  });
}
