import { serveJobs } from '../../src/cli/node/serve-jobs.ts';
import { UserError } from '../../src/door/user-error.ts';

// The engine left out: a job is a number or a word, the setup an array.
serveJobs(({ heights }: { heights: Float32Array }) => {
  const done: unknown[] = [];
  return (job: number | string) => {
    if (job === 'die') process.exit(3);
    if (job === 'fault') throw new Error('broken');
    if (job === 'wrong')
      throw new UserError({ what: 'no such place', where: 'a.yaml:1:2', got: '"x"', expected: 'a place' });
    if (job === 'rest') Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 30);
    if (job === 'time') return Date.now();
    if (job === 'order') return done;
    done.push(job);
    return { job, sum: heights[Number(job)], shared: heights.buffer instanceof SharedArrayBuffer };
  };
});
