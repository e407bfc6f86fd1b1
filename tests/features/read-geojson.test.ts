import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { readFeatures } from '../../src/features/read-geojson.ts';
import type { Point } from '../../src/math/plane.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';

const METRES = {
  crs: 'EPSG:32633',
  where: 'features.geojson',
  fromLonLat: () => [0, 0] as Point,
  featuresInCrs: true,
};
const crs = 'EPSG:27700';
const DEGREES = {
  crs,
  where: 'features.geojson',
  fromLonLat: (lon: number, lat: number) => fromLonLat(crs, [lon, lat]),
};

const collection = (...features: unknown[]) => JSON.stringify({ type: 'FeatureCollection', features });
const item = (properties: object, type: string, coordinates: unknown) => ({
  type: 'Feature',
  properties,
  geometry: { type, coordinates },
});
const message = (text: string, options: Parameters<typeof readFeatures>[1] = METRES): string => {
  try {
    readFeatures(text, options);
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return (error as Error).message;
  }
  throw new Error('nothing was wrong');
};

describe('RFC 7946', () => {
  // the first example of RFC 7946, section 1.5, with kinds added
  const example = `{
    "type": "FeatureCollection",
    "features": [{
      "type": "Feature",
      "geometry": { "type": "Point", "coordinates": [102.0, 0.5] },
      "properties": { "prop0": "value0", "kind": "cairn" }
    }, {
      "type": "Feature",
      "geometry": { "type": "LineString", "coordinates": [[102.0, 0.0], [103.0, 1.0], [104.0, 0.0], [105.0, 1.0]] },
      "properties": { "prop0": "value0", "prop1": 0.0, "kind": "path" }
    }, {
      "type": "Feature",
      "geometry": { "type": "Polygon", "coordinates": [[[100.0, 0.0], [101.0, 0.0], [101.0, 1.0], [100.0, 1.0], [100.0, 0.0]]] },
      "properties": { "prop0": "value0", "prop1": { "this": "that" }, "kind": "marsh" }
    }]
  }`;

  test('its example reads', () => {
    const { features, notes } = readFeatures(example, {
      ...METRES,
      fromLonLat: (x, y) => [x * 1000, y * 1000],
      featuresInCrs: false,
    });
    expect(features.map((f) => [f.kind, f.geometry.type])).toEqual([
      ['cairn', 'point'],
      ['path', 'line'],
      ['marsh', 'area'],
    ]);
    expect(features[0]!.geometry).toEqual({ type: 'point', at: [102_000, 500] });
    expect(notes).toEqual(['numbered, without an id: 3 (feature 1, feature 2, feature 3)']);
  });

  test('longitude and latitude are projected and snapped to 1/1024 m', () => {
    // the worked example of the Ordnance Survey's guide to coordinate systems is TG 51409 13177: 52°39′28.72″N 1°42′57.79″E on WGS 84 (Airy transformed), to the metres of a 7-parameter shift
    const { features } = readFeatures(
      collection(item({ id: 'a', kind: 'cairn' }, 'Point', [1.716052778, 52.657977778])),
      DEGREES,
    );
    const at = (features[0]!.geometry as { at: Point }).at;
    expect(Math.abs(at[0] - 651_409.9)).toBeLessThan(5);
    expect(Math.abs(at[1] - 313_177.3)).toBeLessThan(5);
    expect(at.map((v) => v * 1024).every(Number.isInteger)).toBe(true);
  });

  test('multi-parts are split, collections too, null geometries noted, repeats dropped', () => {
    const { features, notes } = readFeatures(
      collection(
        item({ id: 'walls', kind: 'wall' }, 'MultiLineString', [
          [
            [0, 0],
            [0, 0],
            [9, 9],
          ],
          [
            [20, 0],
            [30, 0],
          ],
        ]),
        { type: 'Feature', properties: { id: 'gone', kind: 'wall' }, geometry: null },
        {
          type: 'Feature',
          properties: { id: 'both', kind: 'crag' },
          geometry: {
            type: 'GeometryCollection',
            geometries: [
              { type: 'Point', coordinates: [1, 2] },
              { type: 'Point', coordinates: [3, 4] },
            ],
          },
        },
        item({ id: 'dot', kind: 'wall' }, 'LineString', [
          [5, 5],
          [5, 5],
        ]),
      ),
      METRES,
    );
    expect(features.map((f) => f.id)).toEqual(['walls.1', 'walls.2', 'both.1', 'both.2']);
    expect(features[0]!.geometry).toEqual({
      type: 'line',
      points: [
        [0, 0],
        [9, 9],
      ],
    });
    expect(notes).toEqual([
      'split, of several parts: 2 (walls, both)',
      'skipped, without a geometry: 1 (gone)',
      'skipped, with an empty geometry: 1 (dot)',
    ]);
  });

  test('a byte order mark, a lone feature and an outer id are fine', () => {
    const text = `\ufeff${JSON.stringify({ ...item({ kind: 'cairn' }, 'Point', [1, 2]), id: 7 })}`;
    expect(readFeatures(text, METRES).features[0]!.id).toBe('7');
  });
});

describe('shape of a kind', () => {
  const ring = [
    [0, 0],
    [60, 0],
    [60, 60],
    [0, 60],
    [0, 0],
  ];
  test('a wall drawn as an area is its outline, a marsh drawn as a closed line is an area, a tarn keeps its outline', () => {
    const { features } = readFeatures(
      collection(
        item({ id: 'w', kind: 'wall' }, 'Polygon', [ring]),
        item({ id: 'm', kind: 'marsh' }, 'LineString', ring),
        item({ id: 't', kind: 'tarn' }, 'Polygon', [ring.slice(0, 4)]),
      ),
      METRES,
    );
    expect(features.map((f) => f.geometry.type)).toEqual(['line', 'area', 'area']);
    // an open ring is closed
    expect(features[2]!.geometry).toMatchObject({ rings: [ring] });
  });

  test('a marsh that is a point is refused', () => {
    expect(message(collection(item({ id: 'm', kind: 'marsh' }, 'Point', [0, 0])))).toBe(
      'features.geojson, feature "m": a feature of kind marsh cannot have this geometry (got a point, expected Polygon or closed LineString)',
    );
  });
});

describe('doubt from the file', () => {
  test('is kept apart from the defaults, with its date and row', () => {
    const { features } = readFeatures(
      collection(
        item(
          {
            id: 's',
            kind: 'post',
            name: 'P 4',
            exists: 0.4,
            lastSeen: '2020-06',
            row: 'fence line',
            rowPlace: 4,
            extraPerGap: null,
          },
          'Point',
          [0, 0],
        ),
      ),
      { ...METRES, age: { date: '2021-06-01' } },
    );
    expect(features[0]).toMatchObject({
      name: 'P 4',
      row: 'fence line',
      rowPlace: 4,
      given: { exists: 0.4, lastSeen: '2020-06' },
    });
    expect(features[0]!.doubt.exists).toBeCloseTo(0.4 * 0.99, 4);
  });

  test.each([
    [{ exists: 1.5 }, 'exists of a feature is wrong (got 1.5, expected a number from 0 to 1)'],
    [{ exists: '0.5' }, 'exists of a feature is wrong (got "0.5", expected a number from 0 to 1)'],
    [{ positionMetres: -3 }, 'positionMetres of a feature is wrong (got -3, expected metres from 0 to 5000)'],
    [{ rangeMetres: 0 }, 'rangeMetres of a feature is wrong (got 0, expected metres from 0.1 to 50000)'],
    [
      { visibility: 'hihg' },
      'visibility of a feature is wrong (got "hihg"; did you mean high?, expected high or medium or low)',
    ],
    [
      { head: 'springfed' },
      'head of a feature is wrong (got "springfed"; did you mean spring-fed?, expected spring-fed or saturation)',
    ],
    [
      { lastSeen: '2021-02-30' },
      'lastSeen of a feature is wrong (got "2021-02-30", expected a date such as 2024-06-30, 2024-06 or 2024)',
    ],
    [{ rowPlace: 'first' }, 'rowPlace of a feature is wrong (got "first", expected a number)'],
  ])('%o', (extra, said) => {
    expect(message(collection(item({ id: 'c', kind: 'cairn', ...extra }, 'Point', [0, 0])))).toBe(
      `features.geojson, feature "c": ${said}`,
    );
  });

  test('a misspelt name is noted', () => {
    const { notes } = readFeatures(
      collection(item({ id: 'c', kind: 'cairn', exist: 0.2, colour: 'grey' }, 'Point', [0, 0])),
      METRES,
    );
    expect(notes).toEqual(['property "exist" not used, did you mean exists?: 1 (c)']);
  });
});

describe('one message about what is wrong', () => {
  test('kind not known, with what is meant', () => {
    expect(message(collection(item({ id: 'c', kind: 'carin' }, 'Point', [0, 0])))).toBe(
      'features.geojson, feature "c": the kind of this feature is not known (got carin; did you mean cairn?, expected a kind such as wall, stream, path, spring, cairn, knoll or marsh)',
    );
    expect(message(collection(item({ id: 'c' }, 'Point', [0, 0])))).toContain(
      'this feature has no kind (got nothing',
    );
  });

  test('the same id twice', () => {
    const c = item({ id: 'c', kind: 'cairn' }, 'Point', [0, 0]);
    expect(message(collection(c, c))).toContain('two features have the same id (got "c" twice');
  });

  test.each([
    ['{"type":"FeatureCollection",\n "features":[,]}', /line 2, column 14/],
    ['', /this is not JSON/],
    ['[1,2]', /not a GeoJSON collection of features \(got \[1,2\]/],
    ['{"type":"Topology"}', /not a GeoJSON collection of features \(got Topology/],
    [
      '{"type":"FeatureCollection","features":[{"type":"Point"}]}',
      /not a GeoJSON collection of features \(got Point/,
    ],
    [collection(item({ id: 'x', kind: 'cairn' }, 'Pont', [1, 2])), /feature "x", line 1, column \d+/],
    [
      collection(item({ id: 'x', kind: 'cairn' }, 'Point', [1, 'two'])),
      /Each element in a position must be a number.*\[1,"two"\]/,
    ],
    [collection(item({ id: 'x', kind: 'wall' }, 'LineString', [[1, 2], 3])), /feature "x", line 1/],
    [collection(item({ id: 'x', kind: 'wall' }, 'LineString', 'abc')), /feature "x", line 1/],
    [collection(item({ id: 'x', kind: 'cairn' }, 'Point', [1e300, 2])), /position \[1e\+300, 2\]/],
  ])('%s', (text, said) => {
    expect(message(text)).toMatch(said);
  });

  test('metres given as degrees say so; degrees far from the terrain too', () => {
    expect(
      message(collection(item({ id: 'c', kind: 'cairn' }, 'Point', [431_200, 512_850])), DEGREES),
    ).toContain('"featuresCrs": "EPSG:27700" in terrain.json');
    expect(message(collection(item({ id: 'c', kind: 'cairn' }, 'Point', [120, -45])), DEGREES)).toBe(
      'features.geojson, feature "c": a position lies outside the area of EPSG:27700 (got [120, -45], expected a position near the terrain)',
    );
  });

  test('too deep, too long, too many: refused before it is parsed', () => {
    const deep = `{"type":"FeatureCollection","features":${'['.repeat(200_000)}${']'.repeat(200_000)}}`;
    expect(message(deep)).toContain('nested too deeply (got more than 64 levels');
    // brackets in a string are no nesting
    readFeatures(
      collection(item({ id: '[[{'.repeat(30), kind: 'cairn', note: '\\"[[[[' }, 'Point', [0, 0])),
      METRES,
    );
    const began = performance.now();
    expect(message(' '.repeat(200_000_000))).toContain(
      'too large to read; cut it to the ground of the task first (got 200 MB',
    );
    expect(performance.now() - began).toBeLessThan(2000);
  });
});

test('names keep their letters and lose what cannot be printed', () => {
  const name = '\u202eGal\u0000lows\u0007\n <b>Müller\u200b & Söhne</b> 山\ud800';
  const { features } = readFeatures(
    collection(item({ id: 'a\u0000b', kind: 'cairn', name }, 'Point', [0, 0])),
    METRES,
  );
  expect(features[0]).toMatchObject({ id: 'ab', name: 'Gallows <b>Müller & Söhne</b> 山' });
  const long = readFeatures(
    collection(item({ id: 'a', kind: 'cairn', name: 'x'.repeat(1e6) }, 'Point', [0, 0])),
    METRES,
  );
  expect(long.features[0]!.name).toHaveLength(120);
  expect(
    readFeatures(
      '{"type":"Feature","properties":{"kind":"cairn","__proto__":{"exists":9}},"geometry":{"type":"Point","coordinates":[0,0]}}',
      METRES,
    ).features[0]!.doubt.exists,
  ).toBe(0.75);
});

test('other people’s properties mean what they mean to them', () => {
  const text = collection(
    item({ id: 7, type: 'weir', exists: 'yes', row: 3 }, 'LineString', [
      [0, 0],
      [9, 0],
    ]),
    item({ id: 7, type: 'x' }, 'Point', [0, 0]),
  );
  const read = readFeatures(text, {
    ...METRES,
    foreign: {
      classify: (p) => (p.type === 'weir' ? { kind: 'wall' } : null),
      ignoredAs: (p) => `type=${p.type}`,
    },
  });
  expect(read.features).toMatchObject([{ id: '7', kind: 'wall', given: {} }]);
  expect(read.features[0]).not.toHaveProperty('row');
  expect(read.ignored).toEqual([{ what: 'type=x', count: 1 }]);
});

test('real rivers with null geometries: read, noted', () => {
  const text = readFileSync('tests/fixtures/features/swellendam-rivers.geojson', 'utf8');
  const utm = 'EPSG:32733';
  const read = readFeatures(text, {
    crs: utm,
    where: 'rivers',
    fromLonLat: (lon, lat) => fromLonLat(utm, [lon, lat]),
    foreign: { classify: () => ({ kind: 'stream' }), idOf: (p) => String(p.full_id) },
  });
  expect(read.features.map((f) => f.id).sort()).toEqual(['w47884047', 'w59417013', 'w59418483', 'w59418484']);
  expect(read.notes).toHaveLength(1);
  expect(read.notes[0]).toMatch(/^skipped, without a geometry: 3 /);
});
