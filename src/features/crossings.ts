import { lineIntersect } from '@turf/turf';
import type { LineString } from 'geojson';
import type { Point } from '../math/plane.ts';

/** Places where two lines cross or touch, in no order. Plane geometry. */
export function crossingsOf(a: readonly Point[], b: readonly Point[]): Point[] {
  return lineIntersect(asLine(a), asLine(b)).features.map(({ geometry }) => {
    const [east, north] = geometry.coordinates;
    return [east!, north!];
  });
}

function asLine(points: readonly Point[]): LineString {
  return { type: 'LineString', coordinates: points.map((p) => [p[0], p[1]]) };
}
