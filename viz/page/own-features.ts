import type { Feature } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import { freshId } from './folder.ts';
import type { Own } from './work.ts';

/** A kind that is offered first for a shape. */
const FIRST_KIND: Readonly<Record<Own['shape'], FeatureKind>> = {
  Point: 'boulder',
  LineString: 'path',
  Polygon: 'marsh',
};

/** Something just drawn, of which nothing is said yet. */
export function justDrawn(shape: Own['shape'], points: readonly Point[], taken: ReadonlySet<string>): Own {
  const kind = FIRST_KIND[shape];
  return {
    id: freshId(kind, '', taken),
    kind,
    name: '',
    shape,
    points: points.map((p): Point => [Math.round(p[0]), Math.round(p[1])]),
    exists: null,
    lastSeen: null,
  };
}

/** Features from a file as the page holds what is drawn; rings without their last point, which is the first again. */
export function ownOf(features: readonly Feature[], taken: Set<string>): Own[] {
  return features.map((f): Own => {
    const id = taken.has(f.id) ? freshId(f.kind, f.id, taken) : f.id;
    taken.add(id);
    const g = f.geometry;
    const shape = g.type === 'point' ? 'Point' : g.type === 'line' ? 'LineString' : 'Polygon';
    const points =
      g.type === 'point' ? [g.at] : g.type === 'line' ? g.points : (g.rings[0] ?? []).slice(0, -1);
    const holes = g.type === 'area' ? g.rings.slice(1).map((ring) => ring.slice(0, -1)) : [];
    const { exists = null, lastSeen = null } = f.given;
    const own = { id, kind: f.kind, name: f.name ?? '', shape, points, exists, lastSeen } as const;
    return holes.length === 0 ? own : { ...own, holes };
  });
}
