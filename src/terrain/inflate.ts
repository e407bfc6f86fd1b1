/** Inflates a zlib stream with the platform's own decoder, in Node and in browsers. Stops with an error past `size` bytes. */
export async function inflate(bytes: Uint8Array, size: number): Promise<Uint8Array> {
  const stream = new DecompressionStream('deflate');
  const writer = stream.writable.getWriter();
  // the reader below reports a damaged stream; unheard, the same error would come a second time here
  const written = Promise.allSettled([writer.write(bytes as BufferSource), writer.close()]);
  const out = new Uint8Array(size);
  const reader = stream.readable.getReader();
  let end = 0;
  for (;;) {
    const { done, value } = (await reader.read()) as { done: boolean; value?: Uint8Array };
    if (done || value === undefined) break;
    if (end + value.length > size) {
      await reader.cancel();
      throw new Error('a block unpacks to more than its size');
    }
    out.set(value, end);
    end += value.length;
  }
  await written;
  return out.subarray(0, end);
}
