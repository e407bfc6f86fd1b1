import { lineIntersect } from '@turf/turf';
import type { MultiLineString } from 'geojson';
import type { Point } from '../math/plane.ts';
import type { Feature, Geometry } from './feature.ts';
import { boxOf, type FeatureIndex, indexFeatures, metresTo } from './index-near.ts';
import type { FeatureKind } from './kinds.ts';

/** Kinds that are taken for each other in a hurry or in mist; common practice, no published source. A kind in no group is only like itself. */
const ALIKE: readonly (readonly FeatureKind[])[] = [
  ['stream', 'small-stream'],
  ['track', 'path', 'right-of-way', 'trod'],
  ['wall', 'ruined-wall'],
  ['tarn', 'pool', 'lake'],
  ['crag', 'boulder', 'boulder-field'],
  ['cairn', 'boulder', 'boundary-stone', 'post'],
  ['ruin', 'fold', 'building'],
  ['spring', 'well', 'stream-end', 'pool'],
  ['knoll', 'spur', 'flat-summit'],
  ['junction', 'crossing'],
  ['wall-corner', 'fence-corner', 'line-end'],
  ['gate', 'stile'],
  ['forest', 'forest-edge'],
  ['marsh', 'marsh-edge'],
];

/** True when one kind could be taken for the other. */
export function alikeKinds(a: FeatureKind, b: FeatureKind): boolean {
  return a === b || ALIKE.some((group) => group.includes(a) && group.includes(b));
}

export interface Lookalike {
  readonly feature: Feature;
  /** Metres between the two, at their nearest. */
  readonly metres: number;
}

/**
 * The other features that could be taken for this one and come within `withinMetres` of it (of the place `at`, when given:
 * a long line has lookalikes only where one stands), nearest first.
 */
export function lookalikesOf(
  feature: Feature,
  features: readonly Feature[] | FeatureIndex,
  withinMetres: number,
  at?: Point,
): Lookalike[] {
  const index = 'tree' in features ? features : indexFeatures(features);
  if (index.tree === null) return [];
  const from: Geometry = at === undefined ? feature.geometry : { type: 'point', at };
  const [west, south, east, north] = boxOf(from);
  const d = withinMetres;
  return index.tree
    .search(west - d, south - d, east + d, north + d)
    .map((i) => index.features[i]!)
    .filter((other) => other.id !== feature.id && alikeKinds(feature.kind, other.kind))
    .map((other) => ({ feature: other, metres: metresBetween(from, other.geometry) }))
    .filter(({ metres }) => metres <= d)
    .sort((a, b) => a.metres - b.metres || (a.feature.id < b.feature.id ? -1 : 1));
}

/** Least distance between two geometries in metres; 0 where they cross or one lies in the other. Plane geometry. */
export function metresBetween(a: Geometry, b: Geometry): number {
  let least = Infinity;
  for (const p of verticesOf(a)) least = Math.min(least, metresTo(b, p));
  for (const p of verticesOf(b)) least = Math.min(least, metresTo(a, p));
  if (least === 0 || a.type === 'point' || b.type === 'point') return least;
  return lineIntersect(outlineOf(a), outlineOf(b)).features.length > 0 ? 0 : least;
}

function outlineOf(g: Exclude<Geometry, { type: 'point' }>): MultiLineString {
  const lines = g.type === 'line' ? [g.points] : g.rings;
  return { type: 'MultiLineString', coordinates: lines.map((line) => line.map((p) => [p[0], p[1]])) };
}

function verticesOf(g: Geometry): readonly Point[] {
  return g.type === 'point' ? [g.at] : g.type === 'line' ? g.points : g.rings.flat();
}
