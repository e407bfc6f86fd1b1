import { deflateSync } from 'node:zlib';
import { fromArrayBuffer } from 'geotiff';
import { expect, test } from 'vitest';
import type { Raster } from '../../src/grid/raster.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { writeGeoTiff } from '../../src/terrain/write-geotiff.ts';

const raster = (columns: number, rows: number): Raster => ({
  crs: 'EPSG:27700',
  west: 312_345.5,
  north: 512_000.25,
  cell: 2.5,
  columns,
  rows,
  data: Float32Array.from({ length: columns * rows }, (_, i) => (i % 97 === 5 ? Number.NaN : 200 + i / 7)),
});

// the geotiff package, an outside reader, is given the file as anybody would
test.each([
  [1, 1],
  [3, 2],
  [70, 64],
  [70, 65],
  [5, 200],
])(
  '%i × %i cells: an outside reader finds every height, the place, the CRS and the missing value',
  async (columns, rows) => {
    const written = raster(columns, rows);
    const bytes = writeGeoTiff(written, (b) => deflateSync(b));
    const image = await (await fromArrayBuffer(bytes.buffer)).getImage();
    expect([image.getWidth(), image.getHeight(), image.getSamplesPerPixel()]).toEqual([columns, rows, 1]);
    expect(image.getOrigin().slice(0, 2)).toEqual([written.west, written.north]);
    expect(image.getResolution().slice(0, 2)).toEqual([2.5, -2.5]);
    expect(image.getGeoKeys()).toMatchObject({
      ProjectedCSTypeGeoKey: 27700,
      GTModelTypeGeoKey: 1,
      GTRasterTypeGeoKey: 1,
    });
    expect(image.getGDALNoData()).toBeNaN();
    const [data] = await image.readRasters();
    expect(Array.from(data as Float32Array)).toEqual(Array.from(written.data));
  },
);

test('what is written is read back as it was', async () => {
  const written = raster(130, 129);
  const grid = await decodeHeights(
    writeGeoTiff(written, (b) => deflateSync(b)),
    'elevation.tif',
  );
  expect(grid).toMatchObject({
    crs: 'EPSG:27700',
    west: written.west,
    north: written.north,
    cellEast: 2.5,
    cellNorth: 2.5,
  });
  expect(Array.from(grid.data)).toEqual(Array.from(written.data));
});
