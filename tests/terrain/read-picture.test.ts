import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readPicture } from '../../src/terrain/read-picture.ts';

const at = (name: string) => new Uint8Array(readFileSync(new URL(`../fixtures/${name}`, import.meta.url)));

// Made by GDAL: 40 x 20 pixels of 50 m, the left half red (200, 0, 0), the right half blue (0, 0, 200); see fixtures/page/make.sh.
describe('a map picture in a GeoTIFF', () => {
  const colour = (p: { pixels: Uint8ClampedArray; width: number }, x: number, y: number) => [
    ...p.pixels.subarray(4 * (y * p.width + x), 4 * (y * p.width + x) + 4),
  ];

  test('deflated with a predictor: colours and place are those that GDAL gave it', async () => {
    const p = (await readPicture(at('page/picture.tif')))!;
    expect([p.width, p.height, p.crs]).toEqual([40, 20, 'EPSG:32630']);
    expect([p.west, p.south, p.east, p.north]).toEqual([441_000, 6_703_500, 443_000, 6_704_500]);
    expect(colour(p, 0, 0)).toEqual([200, 0, 0, 255]);
    expect(colour(p, 39, 19)).toEqual([0, 0, 200, 255]);
  });

  test('of a palette, in the place and system that were named for it', async () => {
    const p = (await readPicture(at('page/elsewhere.tif')))!;
    expect([p.west, p.south, p.east, p.north, p.crs]).toEqual([
      320_000,
      513_000,
      322_000,
      514_000,
      'EPSG:27700',
    ]);
    const [red = 0, , blue = 0] = colour(p, 2, 2);
    expect([red > 150, blue < 50]).toEqual([true, true]);
  });

  test('in lossy packing: near the colours that went in', async () => {
    const p = (await readPicture(at('page/lossy.tif')))!;
    const [red = 0, , blue = 0] = colour(p, 4, 10);
    expect(Math.abs(red - 200)).toBeLessThan(12);
    expect(blue).toBeLessThan(12);
  });

  test('grey in 8 bits is a picture, as scanned maps are', async () => {
    const p = (await readPicture(at('page/grey.tif')))!;
    expect([p.width, p.height, p.west, p.north]).toEqual([40, 20, 441_000, 6_704_500]);
    expect(colour(p, 0, 0)).toEqual([200, 200, 200, 255]);
    expect(colour(p, 39, 19)).toEqual([0, 0, 0, 255]);
  });

  test('heights are none; a cut file is refused in words', async () => {
    expect(await readPicture(at('terrain/ny21-cut.tif'))).toBeNull();
    await expect(readPicture(at('page/picture.tif').slice(0, 300))).rejects.toThrow(/TIFF|picture/);
  });
});
