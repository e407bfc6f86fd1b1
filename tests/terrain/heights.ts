import { readFileSync } from 'node:fs';
import type { Raster } from '../../src/grid/raster.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import type { DecodedGrid } from '../../src/terrain/decoded.ts';

/** A raster from rows of heights, north row first. */
export function heights(rows: readonly (readonly number[])[], cell = 1): Raster {
  const columns = rows[0]!.length;
  return {
    crs: 'EPSG:32633',
    west: 0,
    north: rows.length * cell,
    cell,
    columns,
    rows: rows.length,
    data: Float32Array.from(rows.flat()),
  };
}

export function fixture(name: string): Uint8Array {
  return readFileSync(new URL(`../fixtures/terrain/${name}`, import.meta.url));
}

export function decoded(name: string): Promise<DecodedGrid> {
  return decodeHeights(fixture(name), name);
}

export function rasterOf(grid: DecodedGrid): Raster {
  const { columns, rows, data, west, north, cellEast } = grid;
  return { crs: grid.crs ?? 'EPSG:27700', west, north, cell: cellEast, columns, rows, data };
}
