import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Feature, Geometry } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import { readFeatures } from '../../src/features/read-geojson.ts';
import type { Raster } from '../../src/grid/raster.ts';
import type { Point } from '../../src/math/plane.ts';
import { checkTerrain, findingsText } from '../../src/study/check-terrain.ts';
import { checkElevation } from '../../src/study/check-terrain-elevation.ts';
import { checkFeatures } from '../../src/study/check-terrain-features.ts';
import { checkStreams } from '../../src/study/check-terrain-streams.ts';
import { germanFinding } from '../../src/study/german-findings.ts';
import { lackingKinds } from '../../src/study/prepare-lacking.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import { resolveTask } from '../../src/study/resolve-task.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import type { Relief, Terrain } from '../../src/terrain/terrain.ts';
import { englishIn } from '../viz/said.ts';

let terrain: Terrain;
let relief: Relief;
let features: readonly Feature[];
beforeAll(async () => {
  const path = 'terrains/demo/elevation.tif';
  const grid = await decodeHeights(new Uint8Array(readFileSync(path)), path);
  const { columns, rows, data, west, north, cellEast } = grid;
  const elevation = { crs: 'EPSG:32630', west, north, cell: cellEast, columns, rows, data };
  terrain = {
    name: 'demo',
    crs: 'EPSG:32630',
    elevation,
    mapDate: '2023-05-01',
    licence: 'CC0',
    attribution: 'made',
    invented: true,
    notes: [],
  };
  relief = deriveRelief(elevation);
  features = readFeatures(readFileSync('terrains/demo/features.geojson', 'utf8'), {
    crs: 'EPSG:32630',
    where: 'features.geojson',
    fromLonLat: () => [0, 0],
    featuresInCrs: true,
  }).features;
});

const thing = (id: string, kind: FeatureKind, geometry: Geometry, rest: Partial<Feature> = {}): Feature => ({
  id,
  kind,
  geometry,
  given: {},
  doubt: defaultDoubt(kind),
  origin: 'mapped',
  ...rest,
});
const at = (east: number, north: number): Geometry => ({ type: 'point', at: [east, north] });
const moved = (list: readonly Feature[], east: number, north: number): Feature[] => {
  const move = (p: Point): Point => [p[0] + east, p[1] + north];
  return list.map((f) =>
    f.geometry.type === 'line'
      ? { ...f, geometry: { type: 'line', points: f.geometry.points.map(move) } }
      : f,
  );
};
const flat = (columns: number, rows: number, height: (c: number, r: number) => number): Raster => ({
  crs: 'EPSG:32630',
  west: 0,
  north: rows * 10,
  cell: 10,
  columns,
  rows,
  data: Float32Array.from({ length: columns * rows }, (_, i) => height(i % columns, Math.floor(i / columns))),
});
/** Every sentence that comes up in these tests, for the last of them. */
const seen = new Set<string>();
const says = (findings: readonly { says: string }[]) =>
  findings
    .map((f) => {
      seen.add(f.says);
      return f.says;
    })
    .join('\n');

describe('do the layers lie on each other', () => {
  test('streams that were moved are found out, with the move that puts them back', () => {
    for (const [east, north] of [
      [40, 0],
      [0, -50],
      [-30, 30],
    ] as const) {
      const { share, shift, findings } = checkStreams(
        moved(features, east, north),
        terrain.elevation,
        relief.flow,
      );
      expect(share).toBeLessThan(0.6);
      expect(Math.abs(shift![0] + east)).toBeLessThanOrEqual(15);
      expect(Math.abs(shift![1] + north)).toBeLessThanOrEqual(15);
      expect(says(findings)).toMatch(/the layers may not lie on each other/);
    }
  });

  test('streams in place are not', () => {
    expect(checkStreams(features, terrain.elevation, relief.flow)).toMatchObject({
      shift: null,
      findings: [],
    });
    expect(checkStreams([], terrain.elevation, relief.flow).share).toBeNull();
  });

  test('a stream over a hill climbs', () => {
    const hill = flat(60, 60, (c) => 300 - Math.abs(c - 30) + (c > 30 ? 2 * (c - 30) : 0));
    const over = thing('over', 'stream', {
      type: 'line',
      points: [
        [10, 300],
        [590, 300],
      ],
    });
    expect(says(checkStreams([over], hill, deriveRelief(hill).flow).findings)).not.toMatch(/climb/);
    const valley = flat(60, 60, (c) => 300 + Math.abs(c - 30));
    expect(says(checkStreams([over], valley, deriveRelief(valley).flow).findings)).toMatch(
      /streams that climb more than 15 m on their way: over/,
    );
  });

  test('standing water on a slope', () => {
    const slope = flat(60, 60, (c) => 300 + 4 * c);
    const ring: Point[] = [
      [100, 100],
      [400, 100],
      [400, 400],
      [100, 400],
      [100, 100],
    ];
    const tarn = thing('tilted', 'tarn', { type: 'area', rings: [ring] });
    expect(says(checkFeatures([tarn], slope))).toMatch(/standing water on a slope: tilted/);
    expect(
      says(
        checkFeatures(
          [tarn],
          flat(60, 60, () => 300),
        ),
      ),
    ).not.toMatch(/standing water on/);
  });
});

describe('features', () => {
  const ground = flat(60, 60, () => 300);

  test('all of another place is wrong, some off the map is doubtful', () => {
    const off = thing('off', 'cairn', at(5000, 5000));
    expect(checkFeatures([off], ground)[0]).toMatchObject({ weight: 'wrong', ids: ['off'] });
    const [first] = checkFeatures([off, thing('on', 'cairn', at(300, 300))], ground);
    expect(first).toMatchObject({ weight: 'doubtful', ids: ['off'] });
    expect(first!.says).toMatch(/^1 feature lies wholly off/);
  });

  test('one thing mapped twice', () => {
    const pair = [thing('a', 'cairn', at(300, 300)), thing('b', 'cairn', at(301, 301))];
    expect(says(checkFeatures(pair, ground))).toMatch(/mapped twice.*a and b/);
    const other = [thing('a', 'cairn', at(300, 300)), thing('b', 'ruin', at(301, 301))];
    expect(says(checkFeatures(other, ground))).not.toMatch(/mapped twice/);
  });

  test('a path that stops short of a track', () => {
    const track = thing('track', 'track', {
      type: 'line',
      points: [
        [0, 300],
        [600, 300],
      ],
    });
    const path = (north: number) =>
      thing('path', 'path', {
        type: 'line',
        points: [
          [300, 500],
          [300, north],
        ],
      });
    expect(says(checkFeatures([track, path(312)], ground))).toMatch(/path stops 12 m short of track/);
    expect(says(checkFeatures([track, path(300)], ground))).not.toMatch(/short of/);
    expect(says(checkFeatures([track, path(340)], ground))).not.toMatch(/short of/);
  });

  test('rows without a clear order', () => {
    const row = [1, 2, 2].map((place, i) =>
      thing(`p${i}`, 'post', at(100 + 40 * i, 300), { row: 'posts', rowPlace: place }),
    );
    expect(says(checkFeatures(row, ground))).toMatch(/"posts" have no clear order/);
    const good = row.map((f, i) => ({ ...f, rowPlace: i }));
    expect(says(checkFeatures(good, ground))).not.toMatch(/order/);
  });

  test('what is lacking: only what no mapped feature shows', () => {
    expect(lackingKinds(features)).toEqual([]);
    const bare = [
      thing('a', 'wall', {
        type: 'line',
        points: [
          [0, 0],
          [10, 10],
        ],
      }),
    ];
    expect(lackingKinds(bare)).toContain('cliff');
    expect(lackingKinds(bare)).not.toContain('wall');
    expect(lackingKinds([thing('d', 'spring', at(1, 1), { origin: 'derived' })])).toContain('spring');
    expect(says(checkFeatures(bare, ground))).toMatch(
      /no cliffs, crags, steep ground mapped: hazards are not assessed/,
    );
  });
});

describe('elevation', () => {
  const of = (raster: Raster, papers: Partial<Terrain> = {}): string =>
    says(checkElevation({ ...terrain, ...papers, elevation: raster }, deriveRelief(raster)));

  test('spikes, holes, contour steps, coarse cells, voids, papers', () => {
    const spiked = flat(40, 40, (c, r) => (c === 20 && r === 20 ? 900 : 300 + c / 3));
    expect(of(spiked)).toMatch(/1 cell stands more than 25 m out of all neighbours/);
    expect(of(flat(40, 40, (c) => 300 + 10 * Math.floor(c / 5)))).toMatch(
      /lie on a whole 10 m: made from contours/,
    );
    expect(of({ ...flat(40, 40, (c) => 300 + c / 3), cell: 50 })).toMatch(
      /cells of 50 m: .* narrower than 100 m/,
    );
    expect(of(flat(40, 40, (c) => (c < 10 ? Number.NaN : 300 + c / 3)))).toMatch(
      /25 in 100 of the cells have no height/,
    );
    expect(
      of(
        flat(40, 40, (c) => 300 + c / 3),
        { attribution: ' ' },
      ),
    ).toMatch(/no attribution/);
    expect(of(flat(40, 40, (c) => 300 + 8 * c))).toMatch(/100 in 100 of the ground is steeper than 35°/);
    expect(of(flat(40, 40, (c) => 300 + c / 3))).toBe('');
  });

  test('the sea is no staircase', () => {
    expect(of(flat(40, 40, (c) => (c < 25 ? 0 : 1 + c / 3)))).not.toMatch(/contours/);
  });
});

describe('a task on its ground', () => {
  const findings = (change: (text: string) => string, list = features): string => {
    const text = change(readFileSync('terrains/demo/demo.task.yaml', 'utf8'));
    const task = resolveTask(readTaskDocument(text, 'demo.task.yaml'), { terrain, features: list });
    const found = checkTerrain(terrain, list, task, undefined, relief);
    says(found);
    return findingsText(found);
  };

  test('lookalikes near the target by name and distance', () => {
    expect(findings((t) => t)).toMatch(
      /3 things within 200 m could be taken for Third Kettle: Second Kettle \(kettle-2, 113 m\)/,
    );
    const alone = features.filter((f) => f.kind !== 'sinkhole' || f.id === 'kettle-3');
    expect(findings((t) => t, alone)).not.toMatch(/could be taken for/);
  });

  test('a limit that nobody can keep is wrong', () => {
    expect(
      findings((t) =>
        t.replace(/minutes: \d+/, 'minutes: 5').replace(/turnRoundMinutes: \d+/, 'turnRoundMinutes: 4'),
      ),
    ).toMatch(/Wrong, to be put right\n {2}- 1514 m as the crow flies cannot be walked in 5 minutes/);
    expect(findings((t) => t)).not.toMatch(/Wrong/);
  });

  test('a drawn route that cannot be walked is wrong, with its leg', () => {
    const broken = (t: string) =>
      t.replace(
        '- { technique: handrail, along: cotter-track, towards: high-fold }',
        '- { technique: handrail, along: hathen-beck, towards: mouth }',
      );
    expect(findings(broken)).toMatch(/route "round by the track to High Fold", leg 1/);
  });

  test('a doubtful target, no date, no cliffs', () => {
    const doubt = (t: string) => `${t}features:\n  kettle-3: { exists: 0.5, positionMetres: 40 }\n`;
    expect(findings(doubt)).toMatch(/Third Kettle is there on 50 of 100 such days only/);
    expect(findings(doubt)).toMatch(/known to 40 m only/);
    expect(findings((t) => t.replace(/ {2}date: .*\n/, ''))).toMatch(/no date: only grid bearings/);
    const bare = features.filter((f) => f.kind !== 'cliff' && f.kind !== 'steep-ground');
    expect(findings((t) => t, bare)).toMatch(/hazards not assessed/);
    expect(findings((t) => t)).not.toMatch(/not assessed/);
  });

  test('cells too coarse for the target', () => {
    const coarse = { ...terrain, elevation: { ...terrain.elevation, cell: 60 } };
    const task = resolveTask(
      readTaskDocument(
        'version: 1\nterrain: .\nstart: { at: [441000, 6702000] }\ntarget: { at: [442000, 6702900], kind: spring }\n',
        't',
      ),
      { terrain: coarse, features: [] },
    );
    const found = checkTerrain(coarse, [], task);
    says(found);
    const text = findingsText(found);
    expect(text).toMatch(/cells of 60 m and .* the figures show the workflow, not the last 120 m/);
    expect(text).toMatch(/no sure point between 30 and 300 m/);
  });
});

describe('in German', () => {
  test('each finding of the tests above has its sentence, with the same names and numbers', () => {
    // messages about wrong input are English in every language
    const ours = [...seen].filter((text) => !/\((got|expected) /.test(text));
    expect(ours.length).toBeGreaterThan(30);
    const names = [
      ...features.flatMap((f) => f.name ?? []),
      ...features.map((f) => f.id),
      'round by the track to High Fold',
      'over the Lawns on one bearing',
      'up the old dyke, off to the sike',
      'over',
      'path',
      'track',
    ];
    for (const text of ours) {
      const german = germanFinding(text);
      expect(german, text).not.toBe(text);
      expect(englishIn([german], names), text).toEqual([]);
      const numbers = (t: string) => (t.match(/\d+/g) ?? []).filter((n) => t.includes(`${n} m`));
      for (const n of numbers(german)) expect(text).toContain(n);
    }
  });

  test('under German headings, with the place', () => {
    const found = [{ weight: 'doubtful', about: 'task', says: 'no licence is named', at: [3.2, 4] }] as const;
    expect(findingsText(found, 'de')).toBe(
      'Zweifelhaft, einen Blick wert\n  - keine Lizenz genannt [bei 3, 4]\n',
    );
  });
});
