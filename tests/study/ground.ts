import { doubtOf } from '../../src/features/doubt.ts';
import type { Doubt, Feature, Geometry } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Terrain } from '../../src/terrain/terrain.ts';

/** 1 km × 1 km of flat ground at 10 m near the middle of Great Britain's grid, with a hole in its north-west corner. */
export function flatTerrain(): Terrain {
  const data = new Float32Array(100 * 100).fill(300);
  data[0] = Number.NaN;
  return {
    name: 'Flat',
    crs: 'EPSG:27700',
    elevation: { crs: 'EPSG:27700', west: 400_000, north: 501_000, cell: 10, columns: 100, rows: 100, data },
    mapDate: '2020-01-01',
    licence: 'CC0-1.0',
    attribution: 'none',
    invented: true,
    notes: [],
  };
}

export function feature(
  id: string,
  kind: FeatureKind,
  geometry: Geometry,
  given: Partial<Doubt> = {},
): Feature {
  return { id, kind, geometry, given, doubt: doubtOf(kind, given), origin: 'mapped' };
}

export const FEATURES: readonly Feature[] = [
  feature('old-cairn', 'cairn', { type: 'point', at: [400_100, 500_100] }),
  feature('sinkhole-3', 'sinkhole', { type: 'point', at: [400_900, 500_800] }, { exists: 0.7 }),
  feature('beck-2', 'stream', {
    type: 'line',
    points: [
      [400_200, 500_900],
      [400_800, 500_600],
    ],
  }),
  feature('long-wall', 'wall', {
    type: 'line',
    points: [
      [400_100, 500_300],
      [400_900, 500_300],
    ],
  }),
  feature('mere', 'lake', {
    type: 'area',
    rings: [
      [
        [400_500, 500_400],
        [400_600, 500_400],
        [400_600, 500_500],
        [400_500, 500_500],
        [400_500, 500_400],
      ],
    ],
  }),
];
