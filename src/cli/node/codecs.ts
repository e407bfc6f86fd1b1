import { inflate } from 'node:zlib';
import type { Codecs } from '../../terrain/decoded.ts';

/** Inflates on libuv's threads, several blocks at a time; one allocation a block. */
export const codecs: Codecs = {
  inflate: (bytes, size) =>
    new Promise((resolve, reject) => {
      // room past the end of the block: a chunk that is exactly full makes zlib take a second one
      const limits = { chunkSize: size + 64, maxOutputLength: Math.max(1, size) };
      inflate(bytes, limits, (error, out) => (error === null ? resolve(out) : reject(error)));
    }),
};
