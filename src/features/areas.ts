import { booleanPointInPolygon } from '@turf/turf';
import { lineLength, type Point, pointAlong } from '../math/plane.ts';
import type { Feature } from './feature.ts';

/** True inside the outer ring and outside its holes; the edge counts as inside. Plane geometry: any CRS will do. */
export function contains(rings: readonly (readonly Point[])[], at: Point): boolean {
  return booleanPointInPolygon(at as [number, number], {
    type: 'Polygon',
    coordinates: rings as unknown as number[][][],
  });
}

/** One place that stands for a feature: the point, the middle of the line, the centre of the area's outline (or a place on its edge where that falls outside). */
export function placeOf(feature: Feature): Point {
  const g = feature.geometry;
  if (g.type === 'point') return g.at;
  if (g.type === 'line') return pointAlong(g.points, lineLength(g.points) / 2);
  const centre = centroid(g.rings[0]!);
  return contains(g.rings, centre) ? centre : g.rings[0]![0]!;
}

/** Square metres of an area, its holes taken out. */
export function areaOf(rings: readonly (readonly Point[])[]): number {
  return rings.reduce((sum, ring, i) => sum + (i === 0 ? ringArea(ring) : -ringArea(ring)), 0);
}

function ringArea(ring: readonly Point[]): number {
  const [x0, y0] = ring[0]!;
  let twice = 0;
  for (let i = 1; i < ring.length; i++) {
    const a = ring[i - 1]!;
    const b = ring[i]!;
    twice += (a[0] - x0) * (b[1] - y0) - (b[0] - x0) * (a[1] - y0);
  }
  return Math.abs(twice) / 2;
}

/** Centre of a closed ring's area; of no area, the mean of its vertices. */
function centroid(ring: readonly Point[]): Point {
  // offsets from the first vertex keep the products small
  const [x0, y0] = ring[0]!;
  let twice = 0;
  let x = 0;
  let y = 0;
  for (let i = 1; i < ring.length; i++) {
    const [ax, ay] = [ring[i - 1]![0] - x0, ring[i - 1]![1] - y0];
    const [bx, by] = [ring[i]![0] - x0, ring[i]![1] - y0];
    const cross = ax * by - bx * ay;
    twice += cross;
    x += (ax + bx) * cross;
    y += (ay + by) * cross;
  }
  if (twice !== 0) return [x0 + x / (3 * twice), y0 + y / (3 * twice)];
  return [ring.reduce((s, p) => s + p[0], 0) / ring.length, ring.reduce((s, p) => s + p[1], 0) / ring.length];
}
