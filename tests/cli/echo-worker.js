// What `serveJobs` does, without the engine: answers job by job from the setup that came with the start.
import { parentPort, workerData } from 'node:worker_threads';

parentPort.on('message', ({ id, job }) => {
  if (job === 'die') process.exit(3);
  if (job === 'fault') {
    parentPort.postMessage({ id, fault: { user: false, message: 'broken', stack: 'where it broke' } });
    return;
  }
  const shared = workerData.heights.buffer instanceof SharedArrayBuffer;
  parentPort.postMessage({ id, answer: { job, sum: workerData.heights[job], shared } });
});
