import { readdirSync, readFileSync, statSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { openTask } from '../../src/cli/open-task.ts';
import { type OpenedTerrain, openTerrain } from '../../src/cli/open-terrain.ts';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import { sample } from '../../src/grid/raster.ts';
import { distance, lineLength, nearestOnLine, type Point } from '../../src/math/plane.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { checkTerrain } from '../../src/study/check-terrain.ts';
import { checkStreams } from '../../src/study/check-terrain-streams.ts';

const FOLDER = 'terrains/demo';
let opened: OpenedTerrain;
beforeAll(async () => {
  opened = await openTerrain(FOLDER);
});

const point = (id: string): Point => {
  const { geometry } = opened.features.find((f) => f.id === id)!;
  if (geometry.type !== 'point') throw new Error(id);
  return geometry.at;
};
const line = (id: string): readonly Point[] => {
  const { geometry } = opened.features.find((f) => f.id === id)!;
  if (geometry.type !== 'line') throw new Error(id);
  return geometry.points;
};

describe('the demo ground', () => {
  test('is small, invented and says so', () => {
    const bytes = readdirSync(FOLDER).reduce((sum, name) => sum + statSync(`${FOLDER}/${name}`).size, 0);
    expect(bytes).toBeLessThan(4_000_000);
    expect(opened.terrain).toMatchObject({ invented: true, crs: 'EPSG:32630' });
    const { elevation } = opened.terrain;
    expect([elevation.columns, elevation.rows, elevation.cell]).toEqual([600, 600, 10]);
    let low = Number.POSITIVE_INFINITY;
    let high = 0;
    for (const z of elevation.data) {
      low = Math.min(low, z);
      high = Math.max(high, z);
    }
    expect(low).toBeGreaterThan(240);
    expect(high).toBeLessThan(625);
  });

  test('holds every sort of thing that the trade navigates by', () => {
    const wanted: FeatureKind[] = [
      ...([
        'track',
        'path',
        'right-of-way',
        'wall',
        'ruined-wall',
        'fence',
        'stream',
        'small-stream',
      ] as const),
      ...([
        'forest-edge',
        'ridge',
        'cliff',
        'ruin',
        'fold',
        'building',
        'sinkhole',
        'spring',
        'boulder',
      ] as const),
      ...([
        'cairn',
        'post',
        'boundary-stone',
        'gate',
        'stile',
        'wall-corner',
        'knoll',
        're-entrant',
        'col',
      ] as const),
      ...([
        'tarn',
        'pool',
        'stream-end',
        'confluence',
        'crag',
        'heather',
        'tussock',
        'hag',
        'grass',
      ] as const),
      ...(['marsh', 'boulder-field', 'scree', 'forest'] as const),
    ];
    const kinds = new Set(opened.features.map((f) => f.kind));
    expect(wanted.filter((kind) => !kinds.has(kind))).toEqual([]);
  });

  test('streams run downhill in the valleys of the elevation', () => {
    const { share, shift, findings } = checkStreams(
      opened.features,
      opened.terrain.elevation,
      opened.relief.flow,
    );
    expect(share).toBeGreaterThan(0.98);
    expect(shift).toBeNull();
    expect(findings).toEqual([]);
    for (const f of opened.features) {
      if (f.kind !== 'stream' && f.kind !== 'small-stream') continue;
      const points = line(f.id);
      const [head, mouth] = [points[0]!, points[points.length - 1]!];
      const fall = sample(opened.terrain.elevation, ...head) - sample(opened.terrain.elevation, ...mouth);
      expect(fall, f.id).toBeGreaterThan(0);
      expect(lineLength(points), f.id).toBeGreaterThan(100);
    }
  });

  test('gates stand in their walls, on the track; the row is in order; the tarns are level', () => {
    for (const id of ['dyke-gate', 'north-gate']) {
      expect(nearestOnLine(point(id), line('long-dyke')).away, id).toBeLessThan(1);
      expect(nearestOnLine(point(id), line('cotter-track')).away, id).toBeLessThan(2);
    }
    expect(nearestOnLine(point('dyke-corner'), line('long-dyke')).away).toBeLessThan(1);
    const row = opened.features.filter((f) => f.row === 'rime-row');
    expect(row.map((f) => f.rowPlace)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    for (let i = 1; i < 8; i++) {
      expect(distance(point(`rime-row-${i}`), point(`rime-row-${i + 1}`))).toBeCloseTo(40, 0);
    }
    for (const id of ['threll-water', 'little-threll']) {
      const { geometry } = opened.features.find((f) => f.id === id)!;
      if (geometry.type !== 'area') throw new Error(id);
      const [x, y] = geometry.rings[0]!.reduce(([a, b], p): Point => [a + p[0] / 17, b + p[1] / 17], [
        0, 0,
      ] as Point);
      const level = sample(opened.terrain.elevation, x, y);
      expect(Math.abs(sample(opened.terrain.elevation, x + 20, y) - level), id).toBeLessThan(0.8);
    }
  });

  test('nothing in it is wrong by `check`, and nothing doubtful', () => {
    const findings = checkTerrain(opened.terrain, opened.features, undefined, undefined, opened.relief);
    expect(findings.filter((f) => f.weight !== 'known')).toEqual([]);
  });
});

const tasks = readdirSync(FOLDER).filter((name) => name.endsWith('.task.yaml'));

describe.each(tasks)('%s', (name) => {
  test('resolves: start, target and every leg of every drawn route, from the start to the target', async () => {
    const { task, terrain, relief } = await openTask(`${FOLDER}/${name}`);
    const ground = mapGround(terrain, relief, task.features);
    expect(task.routes.length).toBeGreaterThanOrEqual(2);
    for (const drawn of task.routes) {
      const { legs } = resolveRoute(drawn, task, ground, 'r');
      expect(legs[0]!.from).toEqual(task.start.at);
      expect(legs[legs.length - 1]!.to).toEqual(task.target.at);
    }
    expect(
      checkTerrain(terrain, task.features, task, undefined, relief).filter((f) => f.weight === 'wrong'),
    ).toEqual([]);
  });

  test('says in a comment what it is about', () => {
    expect(readFileSync(`${FOLDER}/${name}`, 'utf8').startsWith('# ')).toBe(true);
  });
});
