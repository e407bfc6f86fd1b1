import { inflate } from 'node:zlib';
import type { Codecs } from '../../terrain/decoded.ts';

/** Inflates on libuv's threads, several blocks at a time; one allocation of the size that the block must have. */
export const codecs: Codecs = {
  inflate: (bytes, size) =>
    new Promise((resolve, reject) => {
      const limits = { chunkSize: Math.max(64, size), maxOutputLength: Math.max(1, size) };
      inflate(bytes, limits, (error, out) => (error === null ? resolve(out) : reject(error)));
    }),
};
