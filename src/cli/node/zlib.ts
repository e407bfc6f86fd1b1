import { deflateSync, inflateSync } from 'node:zlib';

/** A zlib stream of the bytes; the middle level, since heights hardly shrink further. */
export function deflate(bytes: Uint8Array): Uint8Array {
  return deflateSync(bytes, { level: 6 });
}

/** Unpacks a zlib stream of at most `size` bytes; throws when it is damaged or longer. */
export function unzlib(bytes: Uint8Array, size: number): Uint8Array {
  return inflateSync(bytes, { maxOutputLength: Math.max(1, size) });
}
