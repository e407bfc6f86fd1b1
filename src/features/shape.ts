import { distance } from '../math/plane.ts';
import type { Geometry } from './feature.ts';
import type { FeatureKind } from './kinds.ts';
import { FEATURE_KINDS } from './kinds.ts';

const LINE_KINDS = new Set<FeatureKind>(FEATURE_KINDS.slice(0, FEATURE_KINDS.indexOf('stream-end')));
const AREA_KINDS = new Set<FeatureKind>(FEATURE_KINDS.slice(FEATURE_KINDS.indexOf('lake')));

/** What a kind is by nature; points may also be drawn as an outline (a tarn, a ruin). */
export function shapeOfKind(kind: FeatureKind): Geometry['type'] {
  return LINE_KINDS.has(kind) ? 'line' : AREA_KINDS.has(kind) ? 'area' : 'point';
}

/** Brings a geometry into the shape of its kind: the outline of a wall drawn as an area, an area drawn as a closed line. Null when it cannot be. */
export function fitShape(kind: FeatureKind, geometry: Geometry): Geometry[] | null {
  const wanted = shapeOfKind(kind);
  if (geometry.type === wanted || (wanted === 'point' && geometry.type === 'area')) return [geometry];
  if (geometry.type === 'area' && wanted === 'line') {
    return geometry.rings.map((points) => ({ type: 'line', points }));
  }
  if (geometry.type === 'line') {
    const { points } = geometry;
    const closed = points.length >= 4 && distance(points[0]!, points[points.length - 1]!) === 0;
    if (closed) return [{ type: 'area', rings: [points] }];
    // a crag or a row of rocks drawn as a line stays one
    if (wanted === 'point') return [geometry];
  }
  return null;
}
