import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Doubt, Feature } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';

export function line(
  id: string,
  kind: FeatureKind,
  points: readonly Point[],
  given: Partial<Doubt> = {},
): Feature {
  return feature(id, kind, { type: 'line', points }, given);
}

export function point(id: string, kind: FeatureKind, at: Point, given: Partial<Doubt> = {}): Feature {
  return feature(id, kind, { type: 'point', at }, given);
}

export function area(id: string, kind: FeatureKind, ring: readonly Point[]): Feature {
  return feature(id, kind, { type: 'area', rings: [[...ring, ring[0]!]] }, {});
}

function feature(
  id: string,
  kind: FeatureKind,
  geometry: Feature['geometry'],
  given: Partial<Doubt>,
): Feature {
  return { id, kind, geometry, given, doubt: { ...defaultDoubt(kind), ...given }, origin: 'drawn' };
}
