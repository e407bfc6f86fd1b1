import { lineIntersect } from '@turf/turf';
import type { LineString } from 'geojson';
import type { Point } from '../math/plane.ts';
import { boxOf } from './index-near.ts';

/** Places where two lines cross or touch, in no order. Plane geometry. */
export function crossingsOf(a: readonly Point[], b: readonly Point[]): Point[] {
  if (liesBeside(a, b) || boxesApart(a, b)) return [];
  return lineIntersect(asLine(a), asLine(b)).features.map(({ geometry }) => {
    const [east, north] = geometry.coordinates;
    return [east!, north!];
  });
}

function asLine(points: readonly Point[]): LineString {
  return { type: 'LineString', coordinates: points.map((p) => [p[0], p[1]]) };
}

/** True where a single segment has the whole of a line strictly on one side of it, as most lines have. */
function liesBeside(segment: readonly Point[], line: readonly Point[]): boolean {
  const [from, to] = segment;
  if (from === undefined || to === undefined || segment.length > 2) return false;
  const side = (p: Point) => (to[0] - from[0]) * (p[1] - from[1]) - (to[1] - from[1]) * (p[0] - from[0]);
  return line.every((p) => side(p) > 0) || line.every((p) => side(p) < 0);
}

function boxesApart(a: readonly Point[], b: readonly Point[]): boolean {
  const p = boxOf({ type: 'line', points: a });
  const q = boxOf({ type: 'line', points: b });
  return p[2] < q[0] || q[2] < p[0] || p[3] < q[1] || q[3] < p[1];
}
