import type { Feature, Geometry } from '../features/feature.ts';
import { boxOf } from '../features/index-near.ts';
import type { Point } from '../math/plane.ts';
import type { Box } from '../terrain/mosaic.ts';

/**
 * The features cut to a box. A line that leaves it and comes back becomes `id.1`, `id.2` …; an area keeps its id. What lies
 * wholly outside is left out.
 */
export function clipFeatures(features: readonly Feature[], box: Box): Feature[] {
  return features.flatMap((feature) => {
    const [west, south, east, north] = boxOf(feature.geometry);
    if (east < box.west || west > box.east || north < box.south || south > box.north) return [];
    const inside = west >= box.west && east <= box.east && south >= box.south && north <= box.north;
    if (inside) return [feature];
    const parts = clip(feature.geometry, box);
    if (parts.length === 1) return [{ ...feature, geometry: parts[0]! }];
    return parts.map((geometry, k) => ({ ...feature, id: `${feature.id}.${k + 1}`, geometry }));
  });
}

function clip(geometry: Geometry, box: Box): Geometry[] {
  if (geometry.type === 'point') return holds(box, geometry.at) ? [geometry] : [];
  if (geometry.type === 'line') {
    return linesWithin(geometry.points, box).map((points) => ({ type: 'line', points }));
  }
  const rings = geometry.rings.map((ring) => ringWithin(ring, box));
  const outer = rings[0] ?? [];
  if (outer.length < 4) return [];
  return [{ type: 'area', rings: [outer, ...rings.slice(1).filter((ring) => ring.length >= 4)] }];
}

function holds(box: Box, [x, y]: Point): boolean {
  return x >= box.west && x <= box.east && y >= box.south && y <= box.north;
}

function linesWithin(points: readonly Point[], box: Box): Point[][] {
  const lines: Point[][] = [];
  let line: Point[] = [];
  for (let i = 1; i < points.length; i++) {
    const part = segmentWithin(points[i - 1]!, points[i]!, box);
    if (part === null) continue;
    const [a, b] = part;
    const last = line[line.length - 1];
    if (last === undefined || last[0] !== a[0] || last[1] !== a[1]) {
      if (line.length > 1) lines.push(line);
      line = [a];
    }
    line.push(b);
  }
  if (line.length > 1) lines.push(line);
  return lines;
}

/** The part of a segment within a box (Liang & Barsky 1984); null when none or a mere point. */
function segmentWithin(a: Point, b: Point, box: Box): [Point, Point] | null {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  let from = 0;
  let to = 1;
  for (const [step, room] of [
    [-dx, a[0] - box.west],
    [dx, box.east - a[0]],
    [-dy, a[1] - box.south],
    [dy, box.north - a[1]],
  ] as const) {
    if (step === 0) {
      if (room < 0) return null;
      continue;
    }
    const t = room / step;
    if (step < 0) from = Math.max(from, t);
    else to = Math.min(to, t);
  }
  if (from >= to) return null;
  const at = (t: number): Point => (t === 0 ? a : t === 1 ? b : [a[0] + dx * t, a[1] + dy * t]);
  return [at(from), at(to)];
}

/** A closed ring cut by the four sides in turn (Sutherland & Hodgman 1974), closed again. */
function ringWithin(ring: readonly Point[], box: Box): Point[] {
  const sides: readonly [axis: 0 | 1, limit: number, sign: 1 | -1][] = [
    [0, box.west, 1],
    [0, box.east, -1],
    [1, box.south, 1],
    [1, box.north, -1],
  ];
  let points = ring.slice(0, -1);
  for (const [axis, limit, sign] of sides) {
    const kept: Point[] = [];
    points.forEach((p, i) => {
      const q = points[(i + 1) % points.length]!;
      const pIn = (p[axis] - limit) * sign >= 0;
      const qIn = (q[axis] - limit) * sign >= 0;
      if (pIn) kept.push(p);
      if (pIn !== qIn) {
        const t = (limit - p[axis]) / (q[axis] - p[axis]);
        kept.push([p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t]);
      }
    });
    points = kept;
  }
  return points.length < 3 ? [] : [...points, points[0]!];
}
