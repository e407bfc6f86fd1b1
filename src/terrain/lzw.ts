/**
 * TIFF's LZW (TIFF 6.0, section 13): codes of 9 to 12 bits from the high end of each byte, 256 clears, 257 ends. At most `size`
 * bytes come out, and no input can run for longer than its own length. Throws on a code that was never defined, and on the
 * reversed bit order of files older than TIFF 5.
 */
export function unpackLzw(bytes: Uint8Array, size: number): Uint8Array {
  if (bytes.length >= 2 && bytes[0] === 0 && (bytes[1]! & 1) === 1) throw new Error('old-style LZW');
  const out = new Uint8Array(size);
  // a string is its last byte, the string before it, its first byte and its length
  const before = new Uint16Array(4096);
  const last = new Uint8Array(4096);
  const head = new Uint8Array(4096);
  const lengths = new Uint16Array(4096);
  for (let i = 0; i < 256; i++) {
    last[i] = head[i] = i;
    lengths[i] = 1;
  }
  let next = 258;
  let width = 9;
  let previous = -1;
  let buffer = 0;
  let bits = 0;
  let at = 0;
  let end = 0;
  while (end < size) {
    while (bits < width) {
      if (at >= bytes.length) return out.subarray(0, end);
      buffer = ((buffer << 8) | bytes[at++]!) & 0xfffff;
      bits += 8;
    }
    bits -= width;
    const code = (buffer >>> bits) & ((1 << width) - 1);
    if (code === 257) break;
    if (code === 256) {
      next = 258;
      width = 9;
      previous = -1;
      continue;
    }
    if (previous === -1) {
      if (code > 255) throw new Error('LZW code before any string');
    } else if (next < 4096) {
      if (code > next) throw new Error('LZW code out of order');
      before[next] = previous;
      head[next] = head[previous]!;
      last[next] = code === next ? head[previous]! : head[code]!;
      lengths[next] = lengths[previous]! + 1;
      next++;
      if (next + 1 >= 1 << width && width < 12) width++;
    } else if (code >= next) throw new Error('LZW code out of order');
    // written backwards from its end; what does not fit is cut off
    let k = code;
    for (let to = end + lengths[code]! - 1; to >= end; to--) {
      if (to < size) out[to] = last[k]!;
      k = before[k]!;
    }
    end = Math.min(end + lengths[code]!, size);
    previous = code;
  }
  return out.subarray(0, end);
}

/** TIFF's PackBits (TIFF 6.0, section 9), at most `size` bytes. */
export function unpackBits(bytes: Uint8Array, size: number): Uint8Array {
  const out = new Uint8Array(size);
  let end = 0;
  for (let at = 0; at < bytes.length && end < size; ) {
    const n = bytes[at++]!;
    if (n < 128) {
      const run = bytes.subarray(at, at + Math.min(n + 1, size - end));
      out.set(run, end);
      end += run.length;
      at += n + 1;
    } else if (n > 128) {
      const stop = Math.min(end + 257 - n, size);
      out.fill(bytes[at++] ?? 0, end, stop);
      end = stop;
    }
  }
  return out.subarray(0, end);
}
