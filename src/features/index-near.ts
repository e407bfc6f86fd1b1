import Flatbush from 'flatbush';
import { distance, distanceToSegment, type Point } from '../math/plane.ts';
import { contains } from './areas.ts';
import type { Feature, Geometry } from './feature.ts';

/** A static index over features; positions in `features` are the integer ids it answers with. */
export interface FeatureIndex {
  readonly features: readonly Feature[];
  readonly tree: Flatbush | null;
}

export function indexFeatures(features: readonly Feature[]): FeatureIndex {
  if (features.length === 0) return { features, tree: null };
  const tree = new Flatbush(features.length);
  for (const f of features) {
    const [west, south, east, north] = boxOf(f.geometry);
    tree.add(west, south, east, north);
  }
  tree.finish();
  return { features, tree };
}

/** Integer ids, ascending, of the features that come within `range` metres of a place. */
export function nearFeatures(index: FeatureIndex, east: number, north: number, range: number): number[] {
  if (index.tree === null) return [];
  const at: Point = [east, north];
  return index.tree
    .search(east - range, north - range, east + range, north + range)
    .filter((i) => metresTo(index.features[i]!.geometry, at) <= range)
    .sort((a, b) => a - b);
}

/** Metres from a place to the nearest part of a geometry; 0 inside an area. */
export function metresTo(geometry: Geometry, at: Point): number {
  if (geometry.type === 'point') return distance(geometry.at, at);
  if (geometry.type === 'line') return metresToLine(geometry.points, at);
  if (contains(geometry.rings, at)) return 0;
  return Math.min(...geometry.rings.map((ring) => metresToLine(ring, at)));
}

function metresToLine(points: readonly Point[], at: Point): number {
  let least = distance(points[0]!, at);
  for (let i = 1; i < points.length; i++) {
    const d = distanceToSegment(at, points[i - 1]!, points[i]!);
    if (d < least) least = d;
  }
  return least;
}

/** West, south, east, north of a geometry. */
export function boxOf(geometry: Geometry): [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  const lines =
    geometry.type === 'point'
      ? [[geometry.at]]
      : geometry.type === 'line'
        ? [geometry.points]
        : geometry.rings;
  for (const line of lines) {
    for (const [x, y] of line) {
      if (x < box[0]) box[0] = x;
      if (y < box[1]) box[1] = y;
      if (x > box[2]) box[2] = x;
      if (y > box[3]) box[3] = y;
    }
  }
  return box;
}
