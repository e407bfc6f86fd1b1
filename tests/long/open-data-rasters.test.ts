import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { toGround } from '../../src/terrain/to-ground.ts';

/*
 * The collection of open terrain data that this project was built against, in the folder named by MISTWISE_OPEN_DATA; too large to be
 * kept here. One tile of OS Terrain 50 is there in 13 forms of GeoTIFF and as an ASCII grid.
 */
const folder = process.env.MISTWISE_OPEN_DATA ?? '';
const files = existsSync(folder)
  ? (readdirSync(folder, { recursive: true }) as string[])
      .filter((name) => /\.(tiff?|asc|hgt)$/i.test(name))
      .sort()
  : [];
const forms = files.filter((name) => name.includes('S12-'));

const load = (name: string) => decodeHeights(readFileSync(join(folder, name)), name);

describe.skipIf(files.length === 0)('every raster of the open data', () => {
  it.each(files)('%s is read or refused with one clear message', async (name) => {
    try {
      const grid = await load(name);
      expect(grid.data.length).toBe(grid.columns * grid.rows);
      const { raster } = toGround(
        [grid],
        grid.crs === null && grid.crsText === null ? { crs: 'EPSG:27700' } : {},
      );
      expect(raster.data.some((z) => !Number.isNaN(z))).toBe(true);
    } catch (error) {
      expect(error).toBeInstanceOf(UserError);
      expect((error as UserError).message.length).toBeLessThan(400);
    }
  });

  it.each(forms)('%s agrees with the plain form', async (name) => {
    const truth = await load(forms.find((form) => form.endsWith('f32_strip_none.tif'))!);
    const grid = await load(name);
    if (name.includes('degrees')) {
      const box = { west: 320000, south: 510000, east: 330000, north: 520000 };
      const { raster } = toGround([grid], { crs: 'EPSG:27700', cell: 50, box });
      const differences = Array.from(raster.data, (z, i) => Math.abs(z - truth.data[i]!)).filter(
        (d) => d >= 0,
      );
      expect(differences.length).toBeGreaterThan(39_000);
      expect(differences.reduce((sum, d) => sum + d, 0) / differences.length).toBeLessThan(2.5);
      return;
    }
    const step = name.includes('decimetre') ? 0.051 : 0;
    const { columns, rows, west, north, cellEast } = truth;
    expect(grid).toMatchObject({ columns, rows, west, north, cellEast });
    let missing = 0;
    for (let i = 0; i < truth.data.length; i++) {
      if (Number.isNaN(grid.data[i]!)) missing++;
      else if (Math.abs(grid.data[i]! - truth.data[i]!) > step) expect(grid.data[i]).toBe(truth.data[i]);
    }
    expect(missing).toBe(name.includes('nodata') ? 6100 : 0);
  });
});
