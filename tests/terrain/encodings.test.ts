import { readdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import type { DecodedGrid } from '../../src/terrain/decoded.ts';
import { toGround } from '../../src/terrain/to-ground.ts';
import { decoded } from './heights.ts';

/*
 * One truth in the forms that GDAL writes (tests/fixtures/terrain/encodings.py), and odd files of other projects. What GDAL reads from
 * each of them is the truth by how they were made.
 */

let truth: DecodedGrid;
beforeAll(async () => {
  truth = await decoded('encodings/strip-none.tif');
});

/** Heights that the hole of the nodata forms takes away. */
function inHole(i: number): boolean {
  const r = Math.floor(i / 40);
  const c = i % 40;
  return r >= 5 && r < 9 && c >= 10 && c < 20;
}

function compare(grid: DecodedGrid, step: number, hole = false): void {
  expect(grid.data.length).toBe(1600);
  for (let i = 0; i < 1600; i++) {
    if (hole && inHole(i)) expect(grid.data[i]).toBeNaN();
    else if (!(Math.abs(grid.data[i]! - truth.data[i]!) <= step)) expect(grid.data[i]).toBe(truth.data[i]);
  }
}

it('the plain form holds the cut as the ASCII grid states it', async () => {
  const ascii = await decoded('encodings/ascii.asc');
  compare(ascii, 0);
  const { columns, rows, west, north, cellEast, cellNorth } = ascii;
  expect(truth).toMatchObject({ columns, rows, west, north, cellEast, cellNorth, crs: 'EPSG:27700' });
  expect([columns, rows, west, north, cellEast]).toEqual([40, 40, 324000, 516000, 50]);
});

describe('forms in metres give one grid to their stored precision', () => {
  it.each([
    ['strip-rows', 0],
    ['tiled-deflate-pred3', 0],
    ['tiled-lzw-pred2', 0],
    ['lzw', 0],
    ['zstd-pred2', 0],
    ['zstd-tiled-pred3', 0],
    ['lerc', 0],
    ['lerc-deflate', 0],
    ['lerc-zstd', 0],
    ['packbits', 0],
    ['f64-pred3', 0],
    ['f64-pred2', 0],
    ['bigtiff-tiled', 0],
    ['bigendian', 0],
    ['bigendian-bigtiff-pred2', 0],
    ['bands-pixel', 0],
    ['bands-plane', 0],
    ['south-up', 0],
    ['no-crs', 0],
    ['pixel-is-point', 0],
    ['overviews', 0],
    ['pages', 0],
    ['bigendian-i16-pred2', 0.051],
    ['i16-decimetres', 0.051],
    ['i32-millimetres-offset', 0.0006],
    ['u16-metres', 0.5],
    ['u8-offset', 1],
    ['feet-unit', 0.0001],
    ['us-feet-unit', 0.0001],
  ])('%s to %s m', async (name, step) => {
    const grid = await decoded(`encodings/${name}.tif`);
    compare(grid, step);
    const { west, north, cellEast, cellNorth } = truth;
    expect(grid).toMatchObject({
      west,
      north,
      cellEast,
      cellNorth,
      crs: name === 'no-crs' ? null : 'EPSG:27700',
    });
  });

  it('feet told by the vertical coordinate system alone', async () => {
    const grid = await decoded('encodings/feet-vertical-crs.tif');
    compare(grid, 0.0001);
    expect(grid.notes.join()).toContain('feet');
  });
});

describe('missing heights', () => {
  it.each([
    ['nodata', 0],
    ['nodata-low', 0],
    ['nodata-nan', 0],
    ['lerc-nan', 0],
    ['mask', 0],
    ['mask-tiled', 0],
    ['undeclared-low', 0.5],
    ['undeclared-zero', 0.5],
  ])('%s', async (name, step) => {
    const grid = await decoded(`encodings/${name}.tif`);
    compare(grid, step, true);
    expect(grid.notes.join(' ')).toMatch(/\b40\b.*cells/);
  });

  it('blocks that a sparse file leaves out', async () => {
    const grid = await decoded('encodings/sparse.tif');
    for (let i = 0; i < 1600; i++) {
      if (i % 40 < 16 && i < 640) expect(grid.data[i]).toBe(truth.data[i]);
      else expect(grid.data[i]).toBeNaN();
    }
  });
});

it('what else a file holds is said', async () => {
  const notes = async (name: string) => (await decoded(`encodings/${name}.tif`)).notes.join(' ');
  expect(await notes('bands-pixel')).toContain('first of 3 bands');
  expect(await notes('pages')).toContain('first of 2 images');
  expect(await notes('i16-decimetres')).toContain('scale 0.1');
  expect(await notes('overviews')).toBe('');
});

it('the form in degrees agrees on the national grid within a mean of 2.5 m', async () => {
  const grid = await decoded('encodings/degrees.tif');
  const box = { west: 324000, south: 514000, east: 326000, north: 516000 };
  const { raster, notes } = toGround([grid], { crs: 'EPSG:27700', cell: 50, box });
  expect([raster.columns, raster.rows, raster.west, raster.north]).toEqual([40, 40, 324000, 516000]);
  const differences = Array.from(raster.data, (z, i) => Math.abs(z - truth.data[i]!)).filter(
    (d) => !Number.isNaN(d),
  );
  expect(differences.length).toBeGreaterThan(1400);
  expect(differences.reduce((sum, d) => sum + d, 0) / differences.length).toBeLessThan(2.5);
  expect(notes.join()).toMatch(/reprojected from EPSG:4326 to EPSG:27700, bilinear.*differ by \d+\.\d m/);
});

describe('places of odd files, as gdalinfo 3.6.2 prints them', () => {
  it.each([
    ['austrian_capitals_model_tie_point_and_pixel_scale_pixel_is_area', 4302000, 2811000, 1000],
    ['austrian_capitals_model_tie_point_and_pixel_scale_pixel_is_point', 4301500, 2811500, 1000],
    ['austrian_capitals_model_transformation_pixel_is_area', 4302000, 2811000, 1000],
    ['austrian_capitals_model_transformation_pixel_is_point', 4301500, 2811500, 1000],
    ['libgeotiff_pixel_is_point_wgs84', -2, 54, 2],
    ['rasterio_float_nan', 0, 200, 100],
    ['rasterio_float_raster_with_nodata', 6301612.204093784, 3314112.2306177607, 500],
  ])('%s', async (name, west, north, cell) => {
    const grid = await decoded(`other/${name}.tif`);
    expect([grid.west, grid.north, grid.cellEast, grid.cellNorth]).toEqual([west, north, cell, cell]);
  });
});

describe('refused by name', () => {
  it.each([
    ['encodings/rotated.tif', 'rotated'],
    ['encodings/no-place.tif', 'nothing of where it lies'],
    ['other/rasterio_rotated.tif', 'rotated'],
    ['other/austrian_capitals_model_tie_points_pixel_is_area.tif', 'ground control points'],
    ['other/austrian_capitals_model_tie_points_pixel_is_point.tif', 'ground control points'],
    ['other/imagetiff_BigTIFFMotorola.tif', 'a picture'],
    ['other/imagetiff_int16_zstd.tif', 'nothing of where it lies'],
    ['other/imagetiff_gradient-1c-64b-float.tiff', 'nothing of where it lies'],
    ['encodings/ascii.prj', 'no format that is read'],
  ])('%s: %s', async (name, said) => {
    const error = await decoded(name).catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).message).toContain(said);
  });

  it.each([
    ['encodings/no-crs.tif', 'names no coordinate system'],
    ['other/libgeotiff_pcs_32064.tif', 'not in the list'],
    ['other/libgeotiff_ProjLinearUnitsGeoKey_9036.tif', 'not in the list'],
    ['other/libgeotiff_ProjectedCSTypeGeoKey_2046_transverse_mercator_south_oriented.tif', 'not in the list'],
    ['other/libgeotiff_GeogPrimeMeridianGeoKey.tif', 'names no coordinate system'],
    ['other/rasterio_test_esri_wkt.tif', 'names no coordinate system'],
    ['other/own-other-datum.tif', 'names no coordinate system'],
  ])('%s is read but has no ground: %s', async (name, said) => {
    const grid = await decoded(name);
    expect(() => toGround([grid])).toThrow(said);
    expect(() => toGround([grid])).toThrow(UserError);
  });

  it('every other fixture is read', async () => {
    const folder = new URL('../fixtures/terrain/encodings', import.meta.url);
    for (const name of readdirSync(folder)) {
      if (/rotated|no-place|prj/.test(name)) continue;
      await expect(decoded(`encodings/${name}`)).resolves.toBeDefined();
    }
  });
});

it('a tile wider than its image gives the same cells as the image it was cut from', async () => {
  const whole = await decoded('ny21-cut.tif');
  const tile = await decoded('other/own-wide-tile.tif');
  expect([tile.columns, tile.rows]).toEqual([20, 20]);
  for (let i = 0; i < 400; i++)
    expect(tile.data[i]).toBe(whole.data[Math.floor(i / 20) * whole.columns + (i % 20)]);
});
