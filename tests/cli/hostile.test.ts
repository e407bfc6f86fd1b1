import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildProgram, run } from './program.ts';
import { SMALL_TASK, writeSmallGround } from './small-ground.ts';

/** The real program against files that are made to hurt: exit 2, one line, in time, whatever the door. */

const home = mkdtempSync(join(tmpdir(), 'hostile-'));
const MEGABYTE = 1024 * 1024;
let program: string;

beforeAll(async () => {
  program = await buildProgram();
  writeSmallGround(home);
  writeFileSync(join(home, 'sound.task.yaml'), SMALL_TASK);
});
afterAll(() => {
  rmSync(home, { recursive: true });
  rmSync(join(program, '..'), { recursive: true });
});

/** 200 MB that begin as told and go on as zeros; nearly nothing on the disk. */
function huge(name: string, beginning: string): string {
  const path = join(home, name);
  writeFileSync(path, beginning);
  truncateSync(path, 200 * MEGABYTE);
  return name;
}

/** A terrain folder like the small one, with other elevation or features. */
function ground(name: string, change: Record<string, unknown>): string {
  mkdirSync(join(home, name));
  const terrain = { version: 1, name, crs: 'EPSG:27700', elevation: '../ground/elevation.asc' };
  const rest = { licence: 'CC0-1.0', attribution: 'none', ...change };
  writeFileSync(join(home, name, 'terrain.json'), JSON.stringify({ ...terrain, ...rest }));
  return name;
}

const bomb = (root: string) =>
  `<?xml version="1.0"?><!DOCTYPE ${root} [<!ENTITY a "${'x'.repeat(1000)}">${Array.from(
    { length: 20 },
    (_, i) => `<!ENTITY ${String.fromCharCode(98 + i)} "${`&${String.fromCharCode(97 + i)};`.repeat(10)}">`,
  ).join('')}]><${root}>&u;</${root}>`;

test.each<[what: string, words: () => string[], said: string]>([
  ['a task of 200 MB', () => ['compare', huge('huge.task.yaml', 'version: 1\n')], 'too large'],
  ['a GeoTIFF of 200 MB of nothing', () => ['prepare', huge('huge.tif', 'II*\0'), '--out', 'x'], 'damaged'],
  [
    'an ASCII grid of 200 MB',
    () => ['prepare', huge('huge.asc', 'ncols 9000\nnrows 9000\n'), '--out', 'x'],
    'huge.asc',
  ],
  ['a tile of 200 MB', () => ['prepare', huge('N46E009.hgt', ''), '--out', 'x'], 'N46E009.hgt'],
  [
    'map features of 200 MB',
    () => [
      'prepare',
      'ground/elevation.asc',
      '--crs',
      'EPSG:27700',
      huge('huge.geojson', '{"type":"FeatureCollection","features":['),
      '--out',
      'x',
    ],
    'too large',
  ],
  [
    'an extract of 200 MB',
    () => [
      'prepare',
      'ground/elevation.asc',
      '--crs',
      'EPSG:27700',
      huge('huge.osm', '<osm version="0.6">'),
      '--out',
      'x',
    ],
    'too large',
  ],
  [
    'a packed extract of 200 MB',
    () => ['prepare', 'ground/elevation.asc', '--crs', 'EPSG:27700', huge('huge.osm.pbf', ''), '--out', 'x'],
    'huge.osm.pbf',
  ],
  [
    'an entity bomb for an extract',
    () => {
      writeFileSync(join(home, 'bomb.osm'), bomb('osm'));
      return ['prepare', 'ground/elevation.asc', '--crs', 'EPSG:27700', 'bomb.osm', '--out', 'x'];
    },
    'document type',
  ],
  [
    'an entity bomb for a track',
    () => {
      writeFileSync(join(home, 'bomb.gpx'), bomb('gpx'));
      return ['prepare', 'ground/elevation.asc', '--crs', 'EPSG:27700', '--around', 'bomb.gpx', '--out', 'x'];
    },
    'document type',
  ],
  [
    'an elevation file outside its folder',
    () => ['check', ground('climbing', { elevation: '../ground/elevation.asc' })],
    'climbing/terrain.json',
  ],
  [
    'features outside their folder',
    () => ['check', ground('rooted', { elevation: 'a.asc', features: '/etc/hostname' })],
    'rooted/terrain.json',
  ],
])('%s is one message', async (_what, words, said) => {
  const began = performance.now();
  const { code, out, err } = await run(program, words(), home);
  // progress lines go before the message when nobody watches
  const last = err.trim().split('\n').at(-1)!;
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(last).toContain(said);
  expect(last.length).toBeLessThan(700);
  expect(performance.now() - began).toBeLessThan(20_000);
});

/** First bytes as the formats' own documents give them: ESRI shapefile (file code 9994), SQLite 3, gzip, zip. */
test.each([
  ['a.shp', Buffer.concat([Buffer.from([0, 0, 0x27, 0x0a]), Buffer.alloc(96)]), 'a shapefile', 'ogr2ogr'],
  ['a.gpkg', Buffer.from('SQLite format 3\0' + ' '.repeat(80)), 'a GeoPackage', 'ogr2ogr'],
  ['a.gml.gz', Buffer.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0]), 'packed by gzip', 'packed in it'],
  ['a.zip', Buffer.from([0x50, 0x4b, 3, 4, 0, 0, 0, 0]), 'packed by zip', 'packed in it'],
  ['a.gpx', Buffer.from('<?xml version="1.0"?>\n<gpx version="1.1"></gpx>'), 'a GPX track', '--around'],
  [
    'a.kml',
    Buffer.from('<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"/>'),
    'KML',
    'ogr2ogr',
  ],
  ['a.prj', Buffer.from('PROJCS["OSGB 1936"]'), 'coordinate system of another file', 'that file'],
])('%s is refused by the name of its form', async (name, bytes, is, instead) => {
  writeFileSync(join(home, name), bytes);
  const { code, err } = await run(program, ['prepare', name, '--out', 'x'], home);
  const last = err.trim().split('\n').at(-1)!;
  expect(code).toBe(2);
  expect(last).toContain(`${name}: this file is not read as it is (got `);
  expect(last).toContain(is);
  expect(last).toContain(instead);
});

test('the program behind them all still runs', async () => {
  const { code } = await run(program, ['compare', 'sound.task.yaml', '--trials', '50', '--json'], home);
  expect(code).toBe(0);
});
