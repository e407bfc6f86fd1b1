import { UserError } from '../door/user-error.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import type { Geometry } from './feature.ts';
import { isRecord } from './geojson-text.ts';
import { shown } from './plain-text.ts';
import { MOST_VERTICES } from './text-limits.ts';

export interface Projection {
  /** CRS of the terrain, for messages. */
  readonly crs: string;
  /** Metres of the terrain's CRS of a longitude and latitude in degrees. */
  readonly fromLonLat: (lon: number, lat: number) => Point;
  /** True when the file holds metres of the terrain's CRS instead of degrees. */
  readonly featuresInCrs?: boolean;
}

/** Ten earth radii, metres: what lies farther is no place on any map and would drown the lattice of positions. */
const FARTHEST = 6e7;

/** Turns GeoJSON geometries into ours: projected, snapped, repeats dropped, multi-parts as a list. Counts vertices over its life. */
export class ShapeReader {
  private vertices = 0;
  private readonly projection: Projection;
  private readonly badGeometry: (place: string, got: string) => UserError;

  constructor(projection: Projection, badGeometry: (place: string, got: string) => UserError) {
    this.projection = projection;
    this.badGeometry = badGeometry;
  }

  /** The parts of a geometry; none when nothing of it is left. Throws a UserError at `place`. */
  read(geometry: unknown, place: string): Geometry[] {
    if (!isRecord(geometry)) throw this.badGeometry(place, 'a geometry that is no object');
    const { type, coordinates } = geometry;
    switch (type) {
      case 'Point':
        return [{ type: 'point', at: this.point(coordinates, place) }];
      case 'MultiPoint':
        return this.list(coordinates, place).map((p) => ({ type: 'point', at: this.point(p, place) }));
      case 'LineString':
        return this.line(coordinates, place);
      case 'MultiLineString':
        return this.list(coordinates, place).flatMap((l) => this.line(l, place));
      case 'Polygon':
        return this.area(coordinates, place);
      case 'MultiPolygon':
        return this.list(coordinates, place).flatMap((a) => this.area(a, place));
      case 'GeometryCollection':
        return this.list(geometry.geometries, place).flatMap((g) => this.read(g, place));
      default:
        throw this.badGeometry(place, `type ${shown(type)}`);
    }
  }

  private line(positions: unknown, place: string): Geometry[] {
    const points = this.points(positions, place);
    return points.length < 2 ? [] : [{ type: 'line', points }];
  }

  private area(value: unknown, place: string): Geometry[] {
    const closed = this.list(value, place).map((ring) => {
      const points = this.points(ring, place);
      const open = points.length > 0 && !same(points[0]!, points[points.length - 1]!);
      return open ? [...points, points[0]!] : points;
    });
    // a hole that has collapsed is nothing; an outline that has is no area
    const [outer, ...holes] = closed;
    if (outer === undefined || outer.length < 4) return [];
    return [{ type: 'area', rings: [outer, ...holes.filter((h) => h.length >= 4)] }];
  }

  private points(positions: unknown, place: string): Point[] {
    const points = this.list(positions, place).map((p) => this.point(p, place));
    return points.filter((p, i) => i === 0 || !same(p, points[i - 1]!));
  }

  private list(value: unknown, place: string): readonly unknown[] {
    if (Array.isArray(value)) return value;
    throw this.badGeometry(place, 'coordinates that are no list');
  }

  private point(position: unknown, place: string): Point {
    this.vertices++;
    if (this.vertices > MOST_VERTICES) {
      throw new UserError({
        what: 'too many vertices; cut the file to the ground of the task first',
        where: place,
        got: `more than ${MOST_VERTICES}`,
      });
    }
    const [x, y] = Array.isArray(position) ? (position as unknown[]) : [];
    if (typeof x !== 'number' || typeof y !== 'number' || !Number.isFinite(x) || !Number.isFinite(y)) {
      throw this.badGeometry(place, `position ${shown(position)}`);
    }
    return this.projection.featuresInCrs ? this.metres(x, y, place) : this.degrees(x, y, place);
  }

  private metres(x: number, y: number, place: string): Point {
    if (Math.abs(x) <= FARTHEST && Math.abs(y) <= FARTHEST) return snapPoint([x, y]);
    throw this.badGeometry(place, `position [${x}, ${y}]`);
  }

  private degrees(x: number, y: number, place: string): Point {
    const { crs, fromLonLat } = this.projection;
    if (Math.abs(x) > 180 || Math.abs(y) > 90) {
      throw new UserError({
        what: 'a position is not longitude and latitude in degrees',
        where: place,
        got: `[${x}, ${y}]`,
        expected: `degrees, or "featuresCrs": "${crs}" in terrain.json when the file is in metres`,
      });
    }
    try {
      const [east, north] = fromLonLat(x, y);
      if (Math.abs(east) <= FARTHEST && Math.abs(north) <= FARTHEST) return snapPoint([east, north]);
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      // the projection knows that the place is too far off, not whose place it is
    }
    throw new UserError({
      what: `a position lies outside the area of ${crs}`,
      where: place,
      got: `[${x}, ${y}]`,
      expected: 'a position near the terrain',
    });
  }
}

function same(a: Point, b: Point): boolean {
  return a[0] === b[0] && a[1] === b[1];
}
