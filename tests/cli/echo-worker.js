// What `serveJobs` does, without the engine: answers job by job from the setup that it was given.
import { parentPort } from 'node:worker_threads';

const setups = new Map();

parentPort.on('message', ({ setup, value, id, job }) => {
  if (value !== undefined) {
    setups.set(setup, value);
    return;
  }
  if (job === 'die') process.exit(3);
  if (job === 'fault') {
    parentPort.postMessage({ id, fault: { user: false, message: 'broken', stack: 'where it broke' } });
    return;
  }
  const { heights } = setups.get(setup);
  const shared = heights.buffer instanceof SharedArrayBuffer;
  parentPort.postMessage({ id, answer: { job, sum: heights[job], shared } });
});
