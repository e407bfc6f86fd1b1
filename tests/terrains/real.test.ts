import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openTerrain } from '../../src/cli/open-terrain.ts';
import { expectKept } from './kept.ts';
import { expectRoutes } from './routes.ts';

let cache = '';
let before: string | undefined;
beforeAll(() => {
  cache = mkdtempSync(join(tmpdir(), 'mistwise-real-'));
  before = process.env.MISTWISE_CACHE;
  process.env.MISTWISE_CACHE = cache;
});
afterAll(() => {
  if (before === undefined) delete process.env.MISTWISE_CACHE;
  else process.env.MISTWISE_CACHE = before;
  rmSync(cache, { recursive: true, force: true });
});

describe('North Shore: degrees, 3 arc-seconds', () => {
  // the same folder with larger cells, so that the test is quick; the cells of 40 m are tried in tests/long
  test('prepared once and kept, the same bits from the cache', async () => {
    const folder = join(cache, 'coarse');
    mkdirSync(folder);
    copyFileSync('terrains/north-shore/N49W124.tif', join(folder, 'N49W124.tif'));
    const description = JSON.parse(readFileSync('terrains/north-shore/terrain.json', 'utf8'));
    const { features: _, ...bare } = { ...description, cellMetres: 80 };
    writeFileSync(join(folder, 'terrain.json'), JSON.stringify(bare));
    await expectKept(folder, cache);
  });
});

test('Langeberg: every drawn route leads from the start to the target over known ground', async () => {
  await expectRoutes('terrains/langeberg/flag.task.yaml');
});

test('Langeberg: undeclared zero voids have no height, OpenStreetMap is named', async () => {
  const { terrain, features } = await openTerrain('terrains/langeberg');
  expect(terrain.notes.join(' ')).toMatch(/54871 cells of exactly 0 m amid high ground/);
  expect(terrain.attribution).toMatch(/OpenStreetMap contributors, ODbL/);
  expect(features.filter((f) => f.kind === 'path').length).toBe(42);
});
