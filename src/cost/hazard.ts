import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { paintArea } from '../grid/paint.ts';
import { centreEast, centreNorth, type Georeference, type Raster } from '../grid/raster.ts';
import { distanceToSegment, type Point } from '../math/plane.ts';

const HAZARDS: ReadonlySet<FeatureKind> = new Set<FeatureKind>(['cliff', 'steep-ground']);

/** Distances to a hazard are kept up to this, metres: twice the widest buffer. */
export const HAZARD_REACH = 60;

/** Metres to keep from a mapped drop: 15, and 30 where V is below 100 m or in the dark. Common practice. */
export function hazardBuffer(visibilityMetres: number, light: 'day' | 'dark'): number {
  return visibilityMetres < 100 || light === 'dark' ? 30 : 15;
}

export function mapsHazards(features: readonly Feature[]): boolean {
  return features.some((f) => HAZARDS.has(f.kind));
}

/** Metres from each cell's centre to the nearest mapped hazard; 0 inside a hazardous area, Infinity beyond `HAZARD_REACH`. */
export function hazardDistance(g: Georeference, features: readonly Feature[]): Raster {
  const data = new Float32Array(g.columns * g.rows).fill(Number.POSITIVE_INFINITY);
  for (const { kind, geometry } of features) {
    if (!HAZARDS.has(kind)) continue;
    if (geometry.type === 'point') nearSegment(g, data, geometry.at, geometry.at);
    else if (geometry.type === 'line') nearLine(g, data, geometry.points);
    else {
      for (const ring of geometry.rings) nearLine(g, data, ring);
      paintArea(g, geometry.rings, (i) => {
        data[i] = 0;
      });
    }
  }
  const { crs, west, north, cell, columns, rows } = g;
  return { crs, west, north, cell, columns, rows, data };
}

function nearLine(g: Georeference, data: Float32Array, points: readonly Point[]): void {
  for (let i = 1; i < points.length; i++) nearSegment(g, data, points[i - 1]!, points[i]!);
}

/** Lowers the distance of every cell whose centre lies within reach of the segment. */
function nearSegment(g: Georeference, data: Float32Array, a: Point, b: Point): void {
  const { cell, columns, rows } = g;
  const from = Math.max(0, Math.floor((Math.min(a[0], b[0]) - HAZARD_REACH - g.west) / cell));
  const to = Math.min(columns - 1, Math.ceil((Math.max(a[0], b[0]) + HAZARD_REACH - g.west) / cell));
  const top = Math.max(0, Math.floor((g.north - Math.max(a[1], b[1]) - HAZARD_REACH) / cell));
  const foot = Math.min(rows - 1, Math.ceil((g.north - Math.min(a[1], b[1]) + HAZARD_REACH) / cell));
  for (let r = top; r <= foot; r++) {
    const y = centreNorth(g, r);
    for (let c = from; c <= to; c++) {
      const metres = distanceToSegment([centreEast(g, c), y], a, b);
      const i = r * columns + c;
      if (metres <= HAZARD_REACH && metres < data[i]!) data[i] = metres;
    }
  }
}
