import { parentPort, workerData } from 'node:worker_threads';
import { UserError } from '../../door/user-error.ts';
import type { AnswerMessage, JobMessage } from './worker-pool.ts';

/** The worker's side of a pool: makes its answering function from the setup once, then answers job by job. */
export function serveJobs<Setup, Job, Answer>(prepare: (setup: Setup) => (job: Job) => Answer): void {
  const port = parentPort;
  if (port === null) throw new Error('serveJobs runs in a worker only');
  let answerOf: ((job: Job) => Answer) | null = null;
  port.on('message', ({ id, job }: JobMessage<Job>) => {
    const say = (message: AnswerMessage<Answer>) => port.postMessage(message);
    try {
      answerOf ??= prepare(workerData as Setup);
      say({ id, answer: answerOf(job) });
    } catch (error) {
      const { message, stack } = error instanceof Error ? error : new Error(String(error));
      const user = error instanceof UserError;
      say({ id, fault: { user, message, ...(stack === undefined ? {} : { stack }) } });
    }
  });
}
