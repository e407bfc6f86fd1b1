import type { Conditions } from '../../src/conditions/conditions.ts';
import { type MappedGround, mapGround } from '../../src/cost/mapped-ground.ts';
import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Doubt, Feature, Geometry } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Raster } from '../../src/grid/raster.ts';
import type { Point } from '../../src/math/plane.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import type { Terrain } from '../../src/terrain/terrain.ts';

/** Square plain geometry for tests: 10 m cells, south-west corner at the origin. */
export const SIDE = 40;

export function heights(of: (column: number, row: number) => number, side = SIDE): Raster {
  const data = Float32Array.from({ length: side * side }, (_, i) => of(i % side, Math.floor(i / side)));
  return { crs: 'EPSG:27700', west: 0, north: side * 10, cell: 10, columns: side, rows: side, data };
}

/** Centre of a cell. */
export function centre(column: number, row: number, side = SIDE): Point {
  return [column * 10 + 5, (side - row) * 10 - 5];
}

export function thing(
  kind: FeatureKind,
  geometry: Geometry,
  doubt: Partial<Doubt> = {},
  id = kind as string,
): Feature {
  return { id, kind, geometry, given: doubt, doubt: { ...defaultDoubt(kind), ...doubt }, origin: 'mapped' };
}

/** An area over whole cells, from the first to the last of both. */
export function block(kind: FeatureKind, c0: number, r0: number, c1: number, r1: number): Feature {
  const north = (SIDE - r0) * 10;
  const south = (SIDE - r1 - 1) * 10;
  const west = c0 * 10;
  const east = (c1 + 1) * 10;
  const ring: Point[] = [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];
  return thing(kind, { type: 'area', rings: [ring] });
}

export function groundOf(elevation: Raster, features: readonly Feature[] = []): MappedGround {
  const terrain: Terrain = {
    name: 'plain geometry',
    crs: elevation.crs,
    elevation,
    mapDate: null,
    licence: '',
    attribution: '',
    invented: true,
    notes: [],
  };
  return mapGround(terrain, deriveRelief(elevation), features);
}

export const DAY: Conditions = {
  visibility: { below: 5000, above: 5000, cloudBase: null },
  ground: 'normal',
  light: 'day',
  wind: { metresPerSecond: 0, fromDegrees: 0 },
  date: null,
};

/** The raster as text, one letter per cell. */
export function textMap(
  raster: { columns: number; data: ArrayLike<number> },
  letter: (value: number) => string,
): string[] {
  const lines: string[] = [];
  for (let i = 0; i < raster.data.length; i += raster.columns) {
    let line = '';
    for (let c = 0; c < raster.columns; c++) line += letter(raster.data[i + c]!);
    lines.push(line);
  }
  return lines;
}
