import { bboxClip, simplify } from '@turf/turf';
import type { Feature as GeoJsonFeature, LineString, MultiLineString, MultiPolygon, Polygon } from 'geojson';
import { type Point, snapPoint } from '../math/plane.ts';
import type { Feature, Geometry } from './feature.ts';
import { boxOf } from './index-near.ts';

/** West, south, east, north in metres. */
export type Box = readonly [west: number, south: number, east: number, north: number];

/** The parts of the features inside a box; what falls into several is split into `id.1`, `id.2` … Plane geometry. */
export function clipFeatures(features: readonly Feature[], box: Box): Feature[] {
  const taken = new Set(features.map((f) => f.id));
  return features.flatMap((feature) => {
    const parts = clipped(feature.geometry, box);
    if (parts.length === 1) return [{ ...feature, geometry: parts[0]! }];
    return parts.map((geometry, i) => ({
      ...feature,
      id: freeId(`${feature.id}.${i + 1}`, taken),
      geometry,
    }));
  });
}

function freeId(wanted: string, taken: Set<string>): string {
  let id = wanted;
  for (let n = 2; taken.has(id); n++) id = `${wanted}#${n}`;
  taken.add(id);
  return id;
}

function clipped(geometry: Geometry, box: Box): Geometry[] {
  const [west, south, east, north] = boxOf(geometry);
  if (east < box[0] || north < box[1] || west > box[2] || south > box[3]) return [];
  if (west >= box[0] && south >= box[1] && east <= box[2] && north <= box[3]) return [geometry];
  if (geometry.type === 'point') return [];
  return geometriesOf(bboxClip(asGeoJson(geometry), box as [number, number, number, number]).geometry);
}

/** Lines and outlines with fewer vertices, none farther than `tolerance` metres from where it was (Douglas–Peucker). */
export function thinned(features: readonly Feature[], tolerance: number): Feature[] {
  return features.map((feature) => {
    if (feature.geometry.type === 'point') return feature;
    const thin = simplify(asGeoJson(feature.geometry), { tolerance, highQuality: true });
    const [geometry] = geometriesOf(thin.geometry);
    return geometry === undefined ? feature : { ...feature, geometry };
  });
}

type Drawn = LineString | MultiLineString | Polygon | MultiPolygon;

function asGeoJson(g: Exclude<Geometry, { type: 'point' }>): GeoJsonFeature<LineString | Polygon> {
  // copies: the library may not write into what the caller holds
  const copy = (points: readonly Point[]) => points.map((p) => [p[0], p[1]]);
  const geometry: LineString | Polygon =
    g.type === 'line'
      ? { type: 'LineString', coordinates: copy(g.points) }
      : { type: 'Polygon', coordinates: g.rings.map(copy) };
  return { type: 'Feature', properties: null, geometry };
}

function geometriesOf(g: Drawn): Geometry[] {
  switch (g.type) {
    case 'LineString':
      return lineOf(g.coordinates);
    case 'MultiLineString':
      return g.coordinates.flatMap(lineOf);
    case 'Polygon':
      return areaOf(g.coordinates);
    case 'MultiPolygon':
      return g.coordinates.flatMap(areaOf);
  }
}

function lineOf(coordinates: readonly number[][]): Geometry[] {
  const points = pointsOf(coordinates);
  return points.length < 2 ? [] : [{ type: 'line', points }];
}

function areaOf(coordinates: readonly number[][][]): Geometry[] {
  const [outer, ...holes] = coordinates.map(pointsOf);
  if (outer === undefined || outer.length < 4) return [];
  return [{ type: 'area', rings: [outer, ...holes.filter((h) => h.length >= 4)] }];
}

function pointsOf(coordinates: readonly number[][]): Point[] {
  const points = coordinates.map((c) => snapPoint([c[0]!, c[1]!]));
  return points.filter((p, i) => i === 0 || p[0] !== points[i - 1]![0] || p[1] !== points[i - 1]![1]);
}
