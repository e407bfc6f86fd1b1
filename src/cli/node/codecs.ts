import { availableParallelism } from 'node:os';
import { inflate, inflateSync } from 'node:zlib';
import type { Codecs } from '../../terrain/decoded.ts';

/** Below this, handing a block to a thread and back costs more than inflating it. */
const WORTH_A_THREAD_BYTES = 128 * 1024;
const threads = availableParallelism();

/** Inflates large blocks on libuv's threads, several at a time, where there is more than one processor; one allocation a block. */
export const codecs: Codecs = {
  inflate: (bytes, size) => {
    // room past the end of the block: a chunk that is exactly full makes zlib take a second one
    const limits = { chunkSize: Math.max(64, size + 64), maxOutputLength: Math.max(1, size) };
    if (threads === 1 || size < WORTH_A_THREAD_BYTES) return inflateSync(bytes, limits);
    return new Promise((resolve, reject) => {
      inflate(bytes, limits, (error, out) => (error === null ? resolve(out) : reject(error)));
    });
  },
};
