import { describe, expect, test } from 'vitest';
import type { Conditions } from '../../src/conditions/conditions.ts';
import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Doubt, Feature } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Raster } from '../../src/grid/raster.ts';
import type { Point } from '../../src/math/plane.ts';
import { isMark, reachOf, recognisableCells } from '../../src/seeing/recognisable.ts';
import { inView, viewOf } from '../../src/seeing/view.ts';

/** 10 m cells, 41 × 41, north-west corner at (0, 410). */
function raster(height: (column: number, row: number) => number, n = 41): Raster {
  const data = Float32Array.from({ length: n * n }, (_, i) => height(i % n, Math.floor(i / n)));
  return { crs: 'EPSG:27700', west: 0, north: n * 10, cell: 10, columns: n, rows: n, data };
}

function at(column: number, row: number, n = 41): Point {
  return [column * 10 + 5, n * 10 - row * 10 - 5];
}

function feature(kind: FeatureKind, geometry: Feature['geometry'], doubt: Partial<Doubt> = {}): Feature {
  return {
    id: kind,
    kind,
    geometry,
    given: {},
    doubt: { ...defaultDoubt(kind), ...doubt },
    origin: 'mapped',
  };
}

function coverOf(elevation: Raster, code = 1): Raster<Uint8Array> {
  return { ...elevation, data: new Uint8Array(elevation.data.length).fill(code) };
}

const DAY: Conditions = {
  visibility: { below: 5000, above: 5000, cloudBase: null },
  ground: 'normal',
  light: 'day',
  wind: { metresPerSecond: 0, fromDegrees: 0 },
  date: null,
};

describe('from where a feature can be made out', () => {
  const flat = raster(() => 100);
  const cairn = feature('cairn', { type: 'point', at: at(20, 20) });

  test('on level ground a disc of its reach, one for either side of the cloud base', () => {
    const view = viewOf(flat, cairn, { below: 100, above: 30 });
    let below = 0;
    let above = 0;
    for (let r = 0; r < 41; r++) {
      for (let c = 0; c < 41; c++) {
        const near = Math.hypot(c - 20, r - 20) * 10;
        expect(inView(view, c, r, false)).toBe(near <= 100);
        expect(inView(view, c, r, true)).toBe(near <= 30);
        if (inView(view, c, r, false)) below++;
        if (inView(view, c, r, true)) above++;
      }
    }
    // the whole-number points of discs of radius 10 and 3 (Gauss circle problem): 317 and 29
    expect([below, above]).toEqual([317, 29]);
  });

  test('a bank hides what lies behind it', () => {
    const bank = raster((c) => (c === 24 ? 103 : 100));
    const view = viewOf(bank, cairn, { below: 150, above: 0 });
    expect(inView(view, 24, 20, false)).toBe(true);
    expect(inView(view, 26, 20, false)).toBe(false);
    expect(inView(view, 14, 20, false)).toBe(true);
    // a tree on the same spot looks over the bank from further off
    const tree = viewOf(bank, feature('tree', cairn.geometry), { below: 300, above: 0 });
    expect(inView(tree, 40, 20, false)).toBe(true);
  });

  test('a line is made out from beside any part of it, an area from beside its edge', () => {
    const wall = feature('wall', { type: 'line', points: [at(5, 20), at(35, 20)] });
    const view = viewOf(flat, wall, { below: 60, above: 0 });
    for (let c = 5; c <= 35; c++) {
      expect(inView(view, c, 15, false)).toBe(true);
      expect(inView(view, c, 27, false)).toBe(false);
    }
    const ring = [at(10, 10), at(30, 10), at(30, 30), at(10, 30), at(10, 10)];
    const wood = viewOf(flat, feature('forest', { type: 'area', rings: [ring] }), { below: 40, above: 0 });
    expect(inView(wood, 20, 7, false)).toBe(true);
    expect(inView(wood, 20, 5, false)).toBe(false);
  });

  test('a window is cut off at the edge of the map, and a feature off the map shows nothing there', () => {
    const corner = viewOf(flat, feature('cairn', { type: 'point', at: at(0, 0) }), { below: 100, above: 0 });
    expect(inView(corner, 3, 3, false)).toBe(true);
    expect(inView(corner, -1, 0, false)).toBe(false);
    const off = viewOf(flat, feature('cairn', { type: 'point', at: [-500, 200] }), { below: 100, above: 0 });
    expect(off.seen.every((bits) => bits === 0)).toBe(true);
  });
});

describe('where something recognisable is in view', () => {
  const flat = raster(() => 100);
  const share = (r: Raster<Uint8Array>) => r.data.reduce((s, x) => s + x, 0) / r.data.length;

  test('a mark is likely there and lies where it is drawn', () => {
    const point = { type: 'point' as const, at: at(20, 20) };
    expect(isMark(feature('cairn', point))).toBe(true);
    expect(isMark(feature('cairn', point, { exists: 0.6 }))).toBe(false);
    expect(isMark(feature('cairn', point, { positionMetres: 25 }))).toBe(false);
    expect(isMark(feature('heather', point, { positionMetres: 5 }))).toBe(false);
  });

  test('shrinks with the visibility and in long heather', () => {
    const fold = feature('fold', { type: 'point', at: at(20, 20) });
    const clear = recognisableCells(flat, coverOf(flat), [fold], DAY);
    const mist = recognisableCells(flat, coverOf(flat), [fold], {
      ...DAY,
      visibility: { below: 60, above: 60, cloudBase: null },
    });
    expect(reachOf(fold, coverOf(flat), DAY).below).toBe(150);
    expect(reachOf(fold, coverOf(flat, 2), DAY).below).toBe(120);
    expect(share(clear)).toBeGreaterThan(2 * share(mist));
    expect(share(mist)).toBeGreaterThan(0);
    expect(share(recognisableCells(flat, coverOf(flat), [], DAY))).toBe(0);
  });

  test('asks each cell for the visibility of its own height', () => {
    const slope = raster((c) => c * 10);
    const fold = feature('fold', { type: 'point', at: at(20, 20) });
    const cloudy = { ...DAY, visibility: { below: 5000, above: 30, cloudBase: 205 } };
    const seen = recognisableCells(slope, coverOf(slope), [fold], cloudy).data;
    const row = Array.from({ length: 41 }, (_, c) => seen[20 * 41 + c]);
    // downhill the full 150 m, uphill only .8 × 30 m
    expect(row.indexOf(1)).toBe(5);
    expect(row.lastIndexOf(1)).toBe(22);
  });

  test('fine cells are looked at in blocks: the same ground in 2 m cells differs by its rim only', () => {
    const fold = feature('fold', { type: 'point', at: at(20, 20) });
    const n = 203;
    const fine: Raster = {
      crs: 'EPSG:27700',
      west: 0,
      north: 410,
      cell: 2,
      columns: n,
      rows: n,
      data: new Float32Array(n * n).fill(100),
    };
    const seen = recognisableCells(fine, coverOf(fine), [fold], DAY);
    expect(seen.columns).toBe(n);
    const discShare = (Math.PI * 150 * 150) / (n * 2 * n * 2);
    expect(Math.abs(share(seen) / discShare - 1)).toBeLessThan(0.02);
    expect(seen.data[102 * n + 102]).toBe(1);
  });
});
