import { deflateSync, inflateSync, unzlibSync, zlibSync } from 'fflate';

/** Raw deflate (RFC 1951): the same bytes in Node and in a browser, which their own compressors do not promise. */
export function deflated(bytes: Uint8Array): Uint8Array {
  return deflateSync(bytes, { level: 9 });
}

/** Deflate in a zlib wrapper (RFC 1950), as PNG wants it; level 1 is quick, for what is only looked at. */
export function zlibWrapped(bytes: Uint8Array, level: 1 | 9 = 9): Uint8Array {
  return zlibSync(bytes, { level });
}

/**
 * What a raw deflate stream holds, at most `size` + 1 bytes of it: a stream that is longer is cut there and so betrays itself, whatever
 * length it claims.
 * @throws when the stream is broken
 */
export function inflatedUpTo(bytes: Uint8Array, size: number): Uint8Array {
  return inflateSync(bytes, { out: new Uint8Array(size + 1) });
}

/**
 * What a zlib stream holds, however much that is.
 * @throws when the stream is broken
 */
export function inflatedZlib(bytes: Uint8Array): Uint8Array {
  return unzlibSync(bytes);
}
