import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { sample } from '../../src/grid/raster.ts';
import type { DecodedGrid } from '../../src/terrain/decoded.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';
import { toGround } from '../../src/terrain/to-ground.ts';

const plane = (east: number, north: number) => 0.2 * (east - 500_000) - 0.1 * (north - 5_000_000) + 300;

/** A tile of a plane in UTM zone 33, or of whatever `height` says. */
function tile(change: Partial<DecodedGrid> = {}, height = plane): DecodedGrid {
  const base = {
    format: 'GeoTIFF' as const,
    columns: 20,
    rows: 10,
    west: 500_000,
    north: 5_000_000,
    cellEast: 10,
    cellNorth: 10,
    crs: 'EPSG:32633' as string | null,
    crsText: null,
    notes: [],
    ...change,
  };
  const data = Float32Array.from({ length: base.columns * base.rows }, (_, i) =>
    height(
      base.west + ((i % base.columns) + 0.5) * base.cellEast,
      base.north - (Math.floor(i / base.columns) + 0.5) * base.cellNorth,
    ),
  );
  return { ...base, data };
}

describe('tiles joined', () => {
  const four = [
    tile(),
    tile({ west: 500_200 }),
    tile({ north: 4_999_900 }),
    tile({ west: 500_200, north: 4_999_900 }),
  ];

  it('whatever their order, cell for cell', () => {
    const whole = tile({ columns: 40, rows: 20 });
    for (const order of [four, [...four].reverse()]) {
      const { raster, notes } = toGround(order);
      expect(raster).toEqual({
        crs: 'EPSG:32633',
        west: 500_000,
        north: 5_000_000,
        cell: 10,
        columns: 40,
        rows: 20,
        data: whole.data,
      });
      expect(notes).toEqual([]);
    }
  });

  it('cut to a box, whole cells round it', () => {
    const { raster } = toGround(four, {
      box: { west: 500_195, south: 4_999_895, east: 500_215, north: 4_999_915 },
    });
    expect(raster).toMatchObject({ west: 500_190, north: 4_999_920, columns: 3, rows: 3 });
    expect(raster.data[4]).toBeCloseTo(plane(500_205, 4_999_905), 3);
  });

  it('a gap has no height, and where tiles overlap a hole of one is filled by the other', () => {
    const holed = tile();
    holed.data[3] = Number.NaN;
    const { raster } = toGround([holed, tile({ columns: 5, west: 500_020 }), tile({ west: 500_400 })]);
    expect(raster.columns).toBe(60);
    expect(raster.data[3]).toBeCloseTo(plane(500_035, 4_999_995), 3);
    expect(raster.data[30]).toBeNaN();
  });

  it('tiles out of step are resampled onto one lattice', () => {
    const { raster } = toGround([tile(), tile({ west: 500_203, north: 5_000_004 })]);
    expect(raster.columns).toBeGreaterThan(39);
    for (const east of [500_055, 500_155, 500_255, 500_355])
      expect(sample(raster, east, 4_999_955)).toBeCloseTo(plane(east, 4_999_955), 2);
  });
});

describe('another cell', () => {
  it('finer: bilinear, exact on a plane', () => {
    const { raster, notes } = toGround([tile()], { cell: 2.5 });
    expect([raster.columns, raster.rows]).toEqual([80, 40]);
    for (let r = 2; r < 38; r++)
      for (let c = 2; c < 78; c++)
        expect(raster.data[r * 80 + c]!).toBeCloseTo(
          plane(500_000 + 2.5 * (c + 0.5), 5_000_000 - 2.5 * (r + 0.5)),
          3,
        );
    expect(notes.join()).toContain('resampled to cells of 2.5 m');
  });

  it('coarser: the mean of the cells under it', () => {
    const rough = tile({}, (east, north) => ((east * 7 + north * 3) % 50) + 100);
    const { raster } = toGround([rough], { cell: 50 });
    for (let r = 0; r < 2; r++)
      for (let c = 0; c < 4; c++) {
        let sum = 0;
        for (let y = 0; y < 5; y++)
          for (let x = 0; x < 5; x++) sum += rough.data[(r * 5 + y) * 20 + c * 5 + x]!;
        expect(raster.data[r * 4 + c]!).toBeCloseTo(sum / 25, 3);
      }
  });

  it('cells that are not square become so', () => {
    const { raster } = toGround([tile({ cellNorth: 20 })]);
    expect(raster.cell).toBe(10);
    expect(raster.rows).toBe(20);
    expect(sample(raster, 500_100, 4_999_900)).toBeCloseTo(plane(500_100, 4_999_900), 2);
  });
});

describe('degrees', () => {
  const cell = 1 / 1200;
  const degrees = tile(
    { crs: 'EPSG:4326', west: 15, north: 45.2, columns: 120, rows: 100, cellEast: cell, cellNorth: cell },
    (lon, lat) => plane(...fromLonLat('EPSG:32633', [lon, lat])),
  );

  it('go to the UTM zone of their middle, and what was a plane stays one', () => {
    const { raster, notes } = toGround([degrees]);
    expect(raster.crs).toBe('EPSG:32633');
    expect(raster.cell).toBe(60);
    let compared = 0;
    for (let r = 3; r < raster.rows - 3; r++)
      for (let c = 3; c < raster.columns - 3; c++) {
        const z = raster.data[r * raster.columns + c]!;
        if (Number.isNaN(z)) continue;
        const east = raster.west + (c + 0.5) * raster.cell;
        expect(Math.abs(z - plane(east, raster.north - (r + 0.5) * raster.cell))).toBeLessThan(0.05);
        compared++;
      }
    expect(compared).toBeGreaterThan(15_000);
    expect(notes.join()).toMatch(/EPSG:4326 to EPSG:32633.*places right to 0\.00\d of a source cell/);
  });

  it('or to a named system', () => {
    const { raster } = toGround([degrees], { crs: 'EPSG:32632', cell: 100 });
    expect(raster.crs).toBe('EPSG:32632');
    const at: [number, number] = [15.05, 45.16];
    expect(sample(raster, ...fromLonLat('EPSG:32632', at))).toBeCloseTo(
      plane(...fromLonLat('EPSG:32633', at)),
      0,
    );
  });

  it('tiles that share a row of posts join without a seam', () => {
    const east = tile({ ...degrees, west: 15 + 119 * cell }, (lon, lat) =>
      plane(...fromLonLat('EPSG:32633', [lon, lat])),
    );
    const { raster } = toGround([degrees, east], { cell: 100 });
    const seam = fromLonLat('EPSG:32633', [15 + 119.3 * cell, 45.16]);
    expect(sample(raster, ...seam)).toBeCloseTo(plane(...seam), 1);
  });
});

describe('refused with one message', () => {
  const wide = { west: 0, south: 0, east: 10, north: 10 };
  it.each([
    ['no coordinate system', () => toGround([tile({ crs: null })]), 'names no coordinate system'],
    ['two of them', () => toGround([tile(), tile({ crs: 'EPSG:32632' })]), 'different coordinate systems'],
    [
      'another than the terrain',
      () => toGround([tile()], { crs: 'EPSG:27700' }),
      'another coordinate system',
    ],
    ['degrees as the terrain', () => toGround([tile()], { crs: 'EPSG:4326' }), 'not metres on the ground'],
    ['Mercator as the terrain', () => toGround([tile()], { crs: 'EPSG:3857' }), 'not metres on the ground'],
    ['a box elsewhere', () => toGround([tile()], { box: wide }), 'no elevation lies in the box'],
    ['a cell of no size', () => toGround([tile()], { cell: 0 }), 'side of a cell'],
    ['a cell that is no number', () => toGround([tile()], { cell: Number.NaN }), 'side of a cell'],
    [
      'too many cells',
      () => toGround([tile()], { cell: 0.1, limits: { bytes: 1e9, cells: 1e6 } }),
      'too large',
    ],
    [
      'tiles far apart',
      () => toGround([tile(), tile({ west: 900_000 })], { limits: { bytes: 1e9, cells: 1e5 } }),
      'too large',
    ],
    ['degrees off the Earth', () => toGround([tile({ crs: 'EPSG:4326', west: 400, north: 45 })]), 'outside'],
  ])('%s', (_name, call, said) => {
    expect(call).toThrow(UserError);
    expect(call).toThrow(said);
  });

  it('a named system stands in for a file without one', () => {
    expect(toGround([tile({ crs: null })], { crs: 'EPSG:32633' }).raster.crs).toBe('EPSG:32633');
  });
});
