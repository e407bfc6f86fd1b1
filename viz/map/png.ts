import { zlibWrapped } from '../../src/report/deflate.ts';

/**
 * A PNG of palette indices, 8 bits each (ISO/IEC 15948: IHDR, PLTE, tRNS, IDAT, IEND).
 * @param palette rows of red, green, blue, alpha
 * @param level of packing: 9 small, 1 quick
 */
export function palettePng(
  width: number,
  height: number,
  indices: Uint8Array,
  palette: readonly (readonly [number, number, number, number])[],
  level: 1 | 9 = 9,
): Uint8Array {
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header.set([8, 3, 0, 0, 0], 8);
  // Filter 0 in front of each row: indices compress best unfiltered.
  const raw = new Uint8Array((width + 1) * height);
  for (let r = 0; r < height; r++) {
    raw.set(indices.subarray(r * width, (r + 1) * width), r * (width + 1) + 1);
  }
  const parts = [
    Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10),
    chunk('IHDR', header),
    chunk('PLTE', Uint8Array.from(palette.flatMap((c) => c.slice(0, 3)))),
    chunk('tRNS', Uint8Array.from(palette.map((c) => c[3]))),
    chunk('IDAT', zlibWrapped(raw, level)),
    chunk('IEND', new Uint8Array(0)),
  ];
  const png = new Uint8Array(parts.reduce((sum, p) => sum + p.length, 0));
  let at = 0;
  for (const p of parts) {
    png.set(p, at);
    at += p.length;
  }
  return png;
}

export function pngUri(png: Uint8Array): string {
  let binary = '';
  for (let i = 0; i < png.length; i += 8192) binary += String.fromCharCode(...png.subarray(i, i + 8192));
  return `data:image/png;base64,${btoa(binary)}`;
}

function chunk(type: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(data.length + 12);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) bytes[4 + i] = type.charCodeAt(i);
  bytes.set(data, 8);
  view.setUint32(data.length + 8, crc32(bytes.subarray(4, data.length + 8)));
  return bytes;
}

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

export function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const b of bytes) c = CRC_TABLE[(c ^ b) & 255]! ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}
