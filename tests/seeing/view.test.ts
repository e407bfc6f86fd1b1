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

  test('a long line is looked at from all along it, both ends too, round its corners', () => {
    // standpoints every 30 m: no place beside it is farther than √(60² − 15²) from the line and out of view
    const bent = feature('fence', { type: 'line', points: [at(5, 35), at(5, 10), at(33, 10)] });
    const view = viewOf(flat, bent, { below: 60, above: 0 });
    for (let r = 10; r <= 35; r++) expect(inView(view, 0, r, false)).toBe(true);
    for (let c = 5; c <= 33; c++) expect(inView(view, c, 5, false)).toBe(true);
    // 60 m beyond either end, and no farther
    expect([inView(view, 5, 40, false), inView(view, 39, 10, false), inView(view, 40, 10, false)]).toEqual([
      true,
      true,
      false,
    ]);
    expect(inView(view, 20, 20, false)).toBe(false);
  });

  test('of an area every edge shows, that of a clearing too', () => {
    const ring = (c: number, r: number, half: number): Point[] => [
      at(c - half, r - half),
      at(c + half, r - half),
      at(c + half, r + half),
      at(c - half, r + half),
      at(c - half, r - half),
    ];
    const wood = feature('marsh', { type: 'area', rings: [ring(20, 20, 15), ring(20, 20, 8)] });
    const view = viewOf(flat, wood, { below: 30, above: 0 });
    for (const [c, r] of [
      [20, 3],
      [20, 37],
      [3, 20],
      [37, 20],
      [20, 14],
      [26, 20],
      [20, 26],
      [14, 20],
    ] as const)
      expect(inView(view, c, r, false)).toBe(true);
    expect(inView(view, 20, 20, false)).toBe(false);
    expect(inView(view, 20, 1, false)).toBe(false);
  });

  test('what shows from no more than the next cell needs no sight line', () => {
    const pit = raster((c, r) => (c === 20 && r === 20 ? 50 : 100));
    const near = viewOf(pit, cairn, { below: 19, above: 0 });
    expect(inView(near, 21, 20, false)).toBe(true);
    const farther = viewOf(pit, cairn, { below: 60, above: 0 });
    expect(inView(farther, 24, 20, false)).toBe(false);
  });

  test('the window holds what is within reach and is laid on the map by its corner', () => {
    const view = viewOf(flat, cairn, { below: 20, above: 55 });
    // 205 ± 55 m east: columns 15 to 26
    expect([view.column, view.columns, view.row, view.rows]).toEqual([15, 12, 15, 12]);
    expect(view.seen.length).toBe(144);
    expect(inView(view, 14, 20, true)).toBe(false);
    expect(inView(view, 27, 20, true)).toBe(false);
    expect(inView(view, 20, 14, true)).toBe(false);
    expect(inView(view, 20, 27, true)).toBe(false);
    expect([inView(view, 25, 20, true), inView(view, 26, 20, true), inView(view, 23, 20, false)]).toEqual([
      true,
      false,
      false,
    ]);
  });

  test('a bank hides alike wherever on the map it is', () => {
    // the feature near each edge in turn: the window is cut off on that side
    for (const [c, r] of [
      [3, 20],
      [37, 20],
      [20, 3],
      [20, 37],
    ] as const) {
      const wide = c === 20;
      const sign = (wide ? r : c) > 20 ? -1 : 1;
      const [bc, br] = wide ? [20, r + 4 * sign] : [c + 4 * sign, 20];
      const bank = raster((column, row) => ((wide ? row === br : column === bc) ? 103 : 100));
      const view = viewOf(bank, feature('cairn', { type: 'point', at: at(c, r) }), { below: 150, above: 0 });
      expect(inView(view, bc, br, false)).toBe(true);
      expect(inView(view, wide ? 20 : bc + 2 * sign, wide ? br + 2 * sign : 20, false)).toBe(false);
      expect(inView(view, wide ? 20 : c + 2 * sign, wide ? r + 2 * sign : 20, false)).toBe(true);
    }
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
    expect(isMark(feature('cairn', point, { exists: 0.7, positionMetres: 20 }))).toBe(true);
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

  test('fine cells are looked at from the middle of their blocks, at every edge of the map', () => {
    // 4 m cells in blocks of two; a slope with a step in it, so that what is taken for a block's height shows
    const n = 61;
    const height = (c: number, r: number) => 100 + 0.2 * c + (r > 40 ? 8 : 0) + (c % 2 === 0 ? 30 : 0);
    const fine: Raster = {
      crs: 'EPSG:27700',
      west: 0,
      north: 4 * n,
      cell: 4,
      columns: n,
      rows: n,
      data: Float32Array.from({ length: n * n }, (_, i) => height(i % n, Math.floor(i / n))),
    };
    const half = Math.ceil(n / 2);
    const coarse: Raster = {
      ...fine,
      cell: 8,
      columns: half,
      rows: half,
      data: Float32Array.from({ length: half * half }, (_, i) => {
        const [c, r] = [i % half, Math.floor(i / half)];
        return height(Math.min(2 * c + 1, n - 1), Math.min(2 * r + 1, n - 1));
      }),
    };
    const fold = feature('fold', { type: 'point', at: [130, 130] });
    const cloudy = { ...DAY, visibility: { below: 5000, above: 40, cloudBase: 106 } };
    const seen = recognisableCells(fine, coverOf(fine), [fold], cloudy);
    // 8 m cells are looked at one by one only where two of them are more than 10 m
    const blocks = recognisableCells(coarse, coverOf(coarse), [fold], cloudy);
    expect([seen.columns, seen.rows, seen.cell, seen.data.length]).toEqual([n, n, 4, n * n]);
    for (let r = 0; r < n; r++)
      for (let c = 0; c < n; c++) expect(seen.data[r * n + c]).toBe(blocks.data[(r >> 1) * half + (c >> 1)]);
    expect(share(seen)).toBeGreaterThan(0.05);
    expect(share(seen)).toBeLessThan(0.95);
  });

  test('cells at the height of the cloud base are below it; without a base there is no above', () => {
    const fold = feature('fold', { type: 'point', at: at(20, 20) });
    const seen = (cloudBase: number | null) =>
      share(
        recognisableCells(flat, coverOf(flat), [fold], {
          ...DAY,
          visibility: { below: 5000, above: 20, cloudBase },
        }),
      );
    expect(seen(100)).toBe(seen(null));
    expect(seen(99)).toBeLessThan(seen(100) / 10);
    expect(seen(99)).toBeGreaterThan(0);
  });

  test('several marks show where any of them does, what is no mark shows nowhere', () => {
    const east = feature('fold', { type: 'point', at: at(30, 20) });
    const west = feature('fold', { type: 'point', at: at(10, 20) }, { positionMetres: 5 });
    const doubtful = feature('fold', { type: 'point', at: at(20, 5) }, { exists: 0.2 });
    const one = recognisableCells(flat, coverOf(flat), [east], DAY).data;
    const two = recognisableCells(flat, coverOf(flat), [west], DAY).data;
    const all = recognisableCells(flat, coverOf(flat), [east, west, doubtful], DAY).data;
    expect([...all]).toEqual(Array.from(one, (seen, i) => (seen === 1 || two[i] === 1 ? 1 : 0)));
  });

  test('off the map the ground is taken for grass', () => {
    const off = feature('fold', { type: 'point', at: [-500, 200] });
    expect(reachOf(off, coverOf(flat, 2), DAY).below).toBe(150);
  });
});
