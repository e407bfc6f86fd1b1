import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import { sample } from '../grid/raster.ts';
import { distance, lineLength, nearestOnLine, type Point } from '../math/plane.ts';

/** Vertices of what can be followed: a line, or the outer edge of an area. Null for a point. */
export function lineOf(feature: Feature): readonly Point[] | null {
  const g = feature.geometry;
  if (g.type === 'line') return g.points.length > 1 ? g.points : null;
  if (g.type === 'area') return (g.rings[0]?.length ?? 0) > 1 ? g.rings[0]! : null;
  return null;
}

/** The place of a feature nearest to p: the point itself, or the nearest place of a line or an edge. */
export function nearestOf(feature: Feature, p: Point): Point {
  const line = lineOf(feature);
  if (line) return nearestOnLine(p, line).at;
  const g = feature.geometry;
  return g.type === 'point' ? g.at : p;
}

/** Metres from p to the nearest place of a feature. */
export function awayFrom(feature: Feature, p: Point): number {
  return distance(nearestOf(feature, p), p);
}

/** Height in metres, NaN off the map. */
export function heightAt(ground: MappedGround, p: Point): number {
  return sample(ground.terrain.elevation, p[0], p[1]);
}

/** Metres along a line of its lower end: the mouth of a stream, whichever way it was drawn. Level ends give the last vertex. */
export function lowerEnd(ground: MappedGround, line: readonly Point[]): number {
  const a = heightAt(ground, line[0]!);
  const b = heightAt(ground, line[line.length - 1]!);
  return a < b ? 0 : lineLength(line);
}
