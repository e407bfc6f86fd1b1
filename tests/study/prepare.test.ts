import { readFileSync } from 'node:fs';
import { deflateSync, inflateSync } from 'node:zlib';
import { beforeAll, describe, expect, test } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import type { Feature } from '../../src/features/feature.ts';
import { readFeatures } from '../../src/features/read-geojson.ts';
import { lineLength } from '../../src/math/plane.ts';
import { germanPrepared } from '../../src/study/german-prepared.ts';
import {
  type Prepared,
  type PrepareWishes,
  prepare,
  saidText,
  terrainFiles,
} from '../../src/study/prepare.ts';
import { boxInMetres, boxRound, readBox } from '../../src/study/prepare-box.ts';
import { featuresText } from '../../src/study/prepare-files.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import { resolveTask } from '../../src/study/resolve-task.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import type { DecodedGrid } from '../../src/terrain/decoded.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';
import { openTerrain } from '../../src/terrain/read-terrain.ts';
import { englishIn } from '../viz/said.ts';

const CRS = 'EPSG:32733';
const BOX = { west: 1_002_000, south: 6_224_400, east: 1_007_000, north: 6_227_000 };
const bytesOf = (path: string) => ({ name: path, bytes: new Uint8Array(readFileSync(path)) });
const text = (name: string, content: string) => ({ name, bytes: new TextEncoder().encode(content) });
const PATHS = bytesOf('tests/fixtures/features/swellendam-paths.geojson');
const wishes: PrepareWishes = {
  name: 'Langeberg',
  crs: null,
  cell: null,
  box: null,
  mapDate: '2019-01-01',
  licence: 'ODbL 1.0',
  attribution: 'SRTM, NASA/USGS',
  landforms: false,
  unzlib: (bytes, size) => new Uint8Array(inflateSync(bytes, { maxOutputLength: Math.max(1, size) })),
};

let grid: DecodedGrid;
let prepared: Prepared;
beforeAll(async () => {
  const path = 'terrains/langeberg/srtm_41_19.tif';
  grid = await decodeHeights(new Uint8Array(readFileSync(path)), path);
  prepared = prepare({ grids: [grid], features: [PATHS], kindsTable: null }, { ...wishes, box: () => BOX });
});

const metres = (features: readonly Feature[], kind: string) =>
  features
    .filter((f) => f.kind === kind)
    .reduce((sum, f) => sum + (f.geometry.type === 'line' ? lineLength(f.geometry.points) : 0), 0);

describe('elevation and an OpenStreetMap cut', () => {
  // lengths by OGR, tests/fixtures/study/make.sh
  test('ways are reprojected and clipped to the box as OGR does it', () => {
    const { features, elevation } = prepare(
      { grids: [grid], features: [PATHS], kindsTable: null },
      { ...wishes, cell: 50, box: () => BOX },
    );
    expect([elevation.west, elevation.north, elevation.columns, elevation.rows]).toEqual([
      1_002_000, 6_227_000, 100, 52,
    ]);
    expect(metres(features, 'path')).toBeCloseTo(13_598.98, 0);
    expect(metres(features, 'track')).toBeCloseTo(7452.76, 0);
  });

  test('a box without another cell keeps the heights as they are, in whole cells', () => {
    const { elevation } = prepared;
    expect(elevation.cell).toBeCloseTo(81.99342619588413, 9);
    expect(elevation.crs).toBe(CRS);
    const c = Math.round((elevation.west - grid.west) / grid.cellEast);
    const r = Math.round((grid.north - elevation.north) / grid.cellNorth);
    for (const [x, y] of [
      [0, 0],
      [30, 17],
      [elevation.columns - 1, elevation.rows - 1],
    ] as const) {
      expect(elevation.data[y * elevation.columns + x]).toBe(grid.data[(r + y) * grid.columns + c + x]);
    }
  });

  test('places with names are made where ways meet and end', () => {
    const ids = prepared.places.map((p) => p.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(prepared.places.filter((p) => p.kind === 'junction').length).toBeGreaterThan(10);
    expect(ids).toContain('junction:w251609125+w66246002');
  });

  test('what the ground lacks is said in words, and who is to be named', () => {
    const said = saidText(prepared);
    expect(said).toMatch(/no cliffs, crags, steep ground: hazards are not assessed/);
    expect(said).toMatch(/no springs, wells/);
    expect(said).not.toMatch(/no tracks, paths/);
    expect(prepared.attribution).toMatch(/SRTM, NASA\/USGS; .*OpenStreetMap/);
  });

  test('and in German as well', () => {
    const notes = [
      ...prepared.notes,
      '3 of 12 features lie outside and are left out.',
      '4 landforms are read off the elevation.',
      'x.geojson: skipped, without a geometry: 2 (a, b).',
      'x.geojson: skipped, of no geometry that a wall can have: 1 (a).',
      'x.geojson: property "exist" not used, did you mean exists?: 1 (a).',
    ];
    const said = saidText({ ...prepared, notes });
    const names = ['Langeberg', 'exists', ...prepared.ignored.map((i) => i.what)];
    expect(englishIn(germanPrepared(said).split('\n'), names)).toEqual([]);
    expect(germanPrepared(said).split('\n')).toHaveLength(said.split('\n').length);
    expect(germanPrepared(said)).toMatch(/\n\d+ Kartenobjekte: .*\d+ Pfad/);
    expect(
      germanPrepared('a: 9.8 × 8.4 km, cells of 81.99 m, EPSG:32733\n3 features: 2 flat-summit, 1 col'),
    ).toBe('a: 9,8 × 8,4 km, Zellen von 81,99 m, EPSG:32733\n3 Kartenobjekte: 2 flache Gipfel, 1 Sattel');
  });
});

describe('the folder that is written', () => {
  test('opens to the same heights, features and task', async () => {
    const files = terrainFiles(prepared, (bytes) => deflateSync(bytes));
    const terrain = await openTerrain({
      folderName: 'made',
      terrainJson: files.get('terrain.json') as string,
      readBytes: async (name) => files.get(name) as Uint8Array,
    });
    expect(Array.from(terrain.elevation.data)).toEqual(Array.from(prepared.elevation.data));
    expect(terrain).toMatchObject({ crs: CRS, name: 'Langeberg', mapDate: '2019-01-01', invented: false });

    const { features } = readFeatures(files.get('features.geojson') as string, {
      crs: CRS,
      where: 'features.geojson',
      fromLonLat: (lon, lat) => fromLonLat(CRS, [lon, lat]),
    });
    expect(features.map((f) => [f.id, f.kind, f.name, f.given])).toEqual(
      prepared.features.map((f) => [f.id, f.kind, f.name, f.given]),
    );
    expect(metres(features, 'path')).toBeCloseTo(metres(prepared.features, 'path'), 0);

    const document = readTaskDocument(files.get('first.task.yaml') as string, 'first.task.yaml');
    const task = resolveTask(document, { terrain, features });
    expect(task.start.feature?.id).toBe(prepared.firstTask!.start.id);
    expect(task.target.feature.id).toBe(prepared.firstTask!.target.id);
  });

  test('the table of places cannot be a formula', () => {
    const features = [{ ...prepared.features[0]!, id: '=1+1', name: '-cmd, "x"' }];
    const table = terrainFiles({ ...prepared, places: features }, (b) => deflateSync(b)).get(
      'places.csv',
    ) as string;
    expect(table.split('\n')[1]).toMatch(/^'=1\+1,\w+,"'-cmd, ""x""",mapped,\d+,\d+$/);
  });
});

describe('tiles', () => {
  const part = (from: number, columns: number): DecodedGrid => {
    const data = new Float32Array(columns * grid.rows);
    for (let r = 0; r < grid.rows; r++)
      data.set(grid.data.subarray(r * grid.columns + from, r * grid.columns + from + columns), r * columns);
    return { ...grid, columns, data, west: grid.west + from * grid.cellEast };
  };

  test('two tiles that meet inside the box give what one gives', () => {
    const cut = Math.round((1_004_500 - grid.west) / grid.cellEast);
    const two = [part(0, cut), part(cut, grid.columns - cut)];
    const joined = prepare({ grids: two, features: [], kindsTable: null }, { ...wishes, box: () => BOX });
    expect(joined.elevation.columns).toBe(prepared.elevation.columns);
    expect(Array.from(joined.elevation.data)).toEqual(Array.from(prepared.elevation.data));
  });

  test('fine tiles are brought to 5 m unless a cell is named', () => {
    const fine: DecodedGrid = {
      ...part(0, 40),
      rows: 40,
      data: Float32Array.from({ length: 1600 }, (_, i) => 300 + (i % 40)),
      cellEast: 1,
      cellNorth: 1,
      west: 1_000_000,
      north: 6_225_000,
    };
    const sources = { grids: [fine], features: [], kindsTable: null };
    const coarse = prepare(sources, wishes);
    expect([coarse.elevation.cell, coarse.elevation.columns]).toEqual([5, 8]);
    expect(coarse.notes.join(' ')).toMatch(/cells of 1 m; it is brought to 5 m/);
    // the mean of five columns 300, 301, … 304
    expect(coarse.elevation.data[0]).toBeCloseTo(302, 5);
    expect(prepare(sources, { ...wishes, cell: 1 }).elevation.columns).toBe(40);
  });
});

describe('features of other sorts', () => {
  const read = (files: Parameters<typeof prepare>[0]['features'], kinds: string | null = null) =>
    prepare(
      { grids: [grid], features: files, kindsTable: kinds === null ? null : text('kinds.csv', kinds) },
      { ...wishes, box: () => BOX },
    );
  const collection = (...features: object[]) =>
    text('x.geojson', JSON.stringify({ type: 'FeatureCollection', features }));
  const at = (properties: object) => ({
    type: 'Feature',
    properties,
    geometry: { type: 'Point', coordinates: [20.455, -33.992] },
  });

  test('GeoJSON of others through kinds.csv; what has no rule is counted', () => {
    const made = read(
      [collection(at({ CODE: 'SPR' }), at({ CODE: 'XYZ' }), at({ CODE: 'XYZ' }))],
      'property,value,kind\nCODE,SPR,spring\n',
    );
    expect(made.features.map((f) => f.kind)).toEqual(['spring']);
    expect(made.ignored).toEqual([{ what: 'CODE=XYZ', count: 2 }]);
  });

  test('own features from a table, with their doubt and the day they were last seen', () => {
    const own = text(
      'mine.csv',
      'id,kind,lon,lat,name,exists,last seen\nold-pipe,spring,20.455,-33.992,Old Pipe,0.6,2021-03-04\n',
    );
    const [feature] = read([own]).features;
    expect(feature).toMatchObject({ id: 'old-pipe', kind: 'spring', name: 'Old Pipe', origin: 'drawn' });
    expect(feature!.given).toEqual({ exists: 0.6, lastSeen: '2021-03-04' });
  });

  test('GeoJSON made for this program keeps its kinds and doubts', () => {
    const ours = collection(at({ id: 'a', kind: 'cairn', exists: 0.4 }));
    expect(read([ours]).features[0]).toMatchObject({ id: 'a', kind: 'cairn', given: { exists: 0.4 } });
  });

  test('the same element from two extracts counts once; another thing of its id gets a new one', () => {
    const other = collection(at({ id: 'w251609125', kind: 'cairn' }));
    const ids = read([PATHS, PATHS, other]).features.map((f) => f.id);
    expect(ids.filter((id) => id === 'w251609125').length).toBe(1);
    expect(ids).toContain('w251609125~2');
    expect(ids.length).toBe(read([PATHS]).features.length + 1);
  });

  test('a feature off the ground is left out, and said', () => {
    const far = {
      ...at({ id: 'far', kind: 'cairn' }),
      geometry: { type: 'Point', coordinates: [20.6, -33.9] },
    };
    const made = read([collection(far)]);
    expect(made.features).toEqual([]);
    expect(made.notes.join(' ')).toMatch(/1 of 1 features lie outside/);
  });

  test.each([
    ['a picture', '\u0089PNG\r\n'],
    ['a web page', '<html></html>'],
    ['an empty file', ''],
    ['a table without kinds', 'a,b\n1,2\n'],
  ])('%s is refused by name', (_, content) => {
    expect(() => read([text('what.bin', content)])).toThrow(UserError);
    expect(() => read([text('what.bin', content)])).toThrow(/^what\.bin: /);
  });
});

describe('landforms', () => {
  const made = (mapped: Parameters<typeof prepare>[0]['features']) =>
    prepare(
      { grids: [grid], features: mapped, kindsTable: null },
      { ...wishes, landforms: true, box: () => ({ ...BOX, north: 6_230_500 }) },
    );

  test('are read off the elevation as features whose place is no surer than the cells, and make a first task', () => {
    const { features, firstTask, lacking } = made([]);
    const kinds = new Set(features.map((f) => f.kind));
    for (const kind of ['knoll', 'col', 'spur', 're-entrant'] as const) expect(kinds).toContain(kind);
    expect(kinds).not.toContain('break-of-slope');
    expect(new Set(features.map((f) => f.id)).size).toBe(features.length);
    expect(new Set(features.map((f) => f.name)).size).toBe(features.length);
    for (const f of features) {
      expect(f.origin).toBe('derived');
      expect(f.doubt.positionMetres).toBeGreaterThanOrEqual(33);
    }
    expect(firstTask).not.toBeNull();
    // what is read off the elevation is mapped by nobody
    expect(lacking.length).toBe(12);
  });

  test('a mapped one is not doubled, and keeps its id', () => {
    const knoll = made([]).features.find((f) => f.kind === 'knoll')!;
    if (knoll.geometry.type !== 'point') throw new Error('a knoll is a point');
    const own = text(
      'own.geojson',
      featuresText([{ ...knoll, id: 'knoll-1', name: 'Peak', given: {} }], CRS, 'me'),
    );
    const features = made([own]).features.filter((f) => f.kind === 'knoll');
    expect(features.filter((f) => f.id === 'knoll-1').map((f) => f.name)).toEqual(['Peak']);
    expect(features.length).toBe(made([]).features.filter((f) => f.kind === 'knoll').length);
  });
});

describe('the box', () => {
  test('degrees or metres, by the size of the numbers', () => {
    expect(readBox('20.4,-34.01,20.5,-33.98')).toEqual({
      box: { west: 20.4, south: -34.01, east: 20.5, north: -33.98 },
      degrees: true,
    });
    expect(readBox('1002000 6224400 1007000 6227000').degrees).toBe(false);
  });

  test.each(['', '1,2,3', '20.5,-34,20.4,-33', 'a,b,c,d', '1,2,3,4,5', '1,NaN,2,3'])(
    '"%s" is no box',
    (said) => {
      expect(() => readBox(said)).toThrow(UserError);
    },
  );

  test('a box in degrees lies within its box in metres, bent sides and all', () => {
    const box = boxInMetres({ west: -4, south: 60, east: 4, north: 61 }, 'EPSG:32631');
    for (let lon = -4; lon <= 4; lon += 0.37)
      for (const lat of [60, 61]) {
        const [x, y] = fromLonLat('EPSG:32631', [lon, lat]);
        expect(x >= box.west - 1 && x <= box.east + 1 && y >= box.south - 1 && y <= box.north + 1).toBe(true);
      }
  });

  test('round a track with a margin', () => {
    expect(
      boxRound(
        [
          [100, 50],
          [300, -20],
        ],
        10,
      ),
    ).toEqual({ west: 90, south: -30, east: 310, north: 60 });
  });
});
