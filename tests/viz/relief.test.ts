import { inflateSync } from 'node:zlib';
import { sampleRankCorrelation } from 'simple-statistics';
import { expect, test } from 'vitest';
import { palettePng } from '../../viz/map/png.ts';
import { RELIEF_PALETTE, reliefUri, shades } from '../../viz/map/relief.ts';
import { asciiGround } from './ascii-ground.ts';

const ground = asciiGround('surface.asc');

test('shade follows gdaldem hillshade (z 2, azimuth 315°, altitude 45°)', () => {
  const gdal = asciiGround('hillshade.asc').heights;
  const mine = shades(ground);
  const [a, b]: [number[], number[]] = [[], []];
  for (let r = 1; r < ground.rows - 1; r++) {
    for (let c = 1; c < ground.columns - 1; c++) {
      const i = r * ground.columns + c;
      const besideMissing = c >= 19 && c <= 23 && r >= 13 && r <= 17;
      // Fully lit cells are all paper here; gdal still tells them apart.
      if (besideMissing || mine[i] === 0) continue;
      a.push(-mine[i]!);
      b.push(gdal[i]!);
    }
  }
  expect(a.length).toBeGreaterThan(200);
  expect(sampleRankCorrelation(a, b)).toBeGreaterThan(0.99);
});

test('nothing is darker than #D9DCD8, and missing cells are not there', () => {
  for (const [r, g, b, alpha] of RELIEF_PALETTE) {
    if (alpha === 0) continue;
    expect([r >= 0xd9, g >= 0xdc, b >= 0xd8, alpha]).toEqual([true, true, true, 255]);
  }
  const i = 15 * ground.columns + 21;
  expect(RELIEF_PALETTE[shades(ground)[i]!]![3]).toBe(0);
});

test('the picture is a PNG that holds these indices (ISO/IEC 15948), read with zlib', () => {
  const indices = Uint8Array.of(0, 1, 2, 3, 4, 5);
  const png = Buffer.from(palettePng(3, 2, indices, RELIEF_PALETTE));
  expect(png.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n');
  const chunks = new Map<string, Buffer>();
  for (let at = 8; at < png.length; ) {
    const size = png.readUInt32BE(at);
    const body = png.subarray(at + 4, at + 8 + size);
    expect(png.readUInt32BE(at + 8 + size), body.toString('latin1', 0, 4)).toBe(bitwiseCrc(body));
    chunks.set(body.toString('latin1', 0, 4), body.subarray(4));
    at += 12 + size;
  }
  expect([...chunks.keys()]).toEqual(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']);
  expect([...chunks.get('IHDR')!]).toEqual([0, 0, 0, 3, 0, 0, 0, 2, 8, 3, 0, 0, 0]);
  expect([...inflateSync(chunks.get('IDAT')!)]).toEqual([0, 0, 1, 2, 0, 3, 4, 5]);
  expect(reliefUri(ground)).toMatch(/^data:image\/png;base64,/);
});

/** The sample value of the PNG specification, annex D: CRC-32 by bits, without a table. */
function bitwiseCrc(bytes: Uint8Array): number {
  let c = 0xffffffff;
  for (const b of bytes) {
    c ^= b;
    for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
  }
  return (c ^ 0xffffffff) >>> 0;
}
