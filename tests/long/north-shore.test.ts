import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { cellAt } from '../../src/grid/raster.ts';
import { expectKept } from '../terrains/kept.ts';
import { expectRoutes } from '../terrains/routes.ts';

const cache = mkdtempSync(join(tmpdir(), 'mistwise-north-shore-'));
process.env.MISTWISE_CACHE = cache;
afterAll(() => rmSync(cache, { recursive: true, force: true }));

test('some 5 million cells of 40 m: kept, and the heights of gdalwarp', async () => {
  const { elevation } = (await expectKept('terrains/north-shore', cache)).terrain;
  expect(elevation.data.length).toBeGreaterThan(4_900_000);
  expect(elevation.data.length).toBeLessThan(5_300_000);

  // tests/fixtures/study/make.sh: gdalwarp, bilinear, the same cells
  const block = JSON.parse(readFileSync('tests/fixtures/study/north-shore-40m.json', 'utf8')) as {
    west: number;
    north: number;
    rows: number[][];
  };
  const differences: number[] = [];
  block.rows.forEach((row, r) => {
    row.forEach((z, c) => {
      const i = cellAt(elevation, block.west + c * 40 + 20, block.north - r * 40 - 20);
      // beside a void GDAL makes a height of the cells that are left; here there is none
      const difference = Math.abs(elevation.data[i]! - z);
      if (!Number.isNaN(difference)) differences.push(difference);
    });
  });
  expect(differences.length).toBeGreaterThan(350);
  expect(Math.max(...differences)).toBeLessThan(0.1);
});

test('every drawn route leads from the start to the target over known ground', async () => {
  await expectRoutes('terrains/north-shore/second-col.task.yaml');
});
