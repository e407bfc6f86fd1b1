import { UserError } from '../door/user-error.ts';
import type { Point } from '../math/plane.ts';
import type { Box } from '../terrain/mosaic.ts';
import { fromLonLat } from '../terrain/projection.ts';

/** Sides of a box in degrees are bent in metres; so many places along each are looked at. */
const ALONG = 16;

/** `west,south,east,north` as a person writes it; degrees when no number is beyond ±180. */
export function readBox(text: string): { box: Box; degrees: boolean } {
  const numbers = text.split(/[,;\s]+/).filter((word) => word !== '');
  const values = numbers.map(Number);
  const [west, south, east, north] = values as [number, number, number, number];
  if (values.length !== 4 || !values.every(Number.isFinite) || !(west < east) || !(south < north)) {
    throw new UserError({
      what: 'this is no box',
      where: '--box',
      got: text.slice(0, 80),
      expected:
        'west,south,east,north in degrees or in metres of the coordinate system, west < east, south < north',
    });
  }
  return { box: { west, south, east, north }, degrees: values.every((v) => Math.abs(v) <= 180) };
}

/** The box in metres round a box in degrees. */
export function boxInMetres(box: Box, crs: string): Box {
  const edge: Point[] = [];
  for (let k = 0; k <= ALONG; k++) {
    const lon = box.west + ((box.east - box.west) * k) / ALONG;
    const lat = box.south + ((box.north - box.south) * k) / ALONG;
    edge.push(fromLonLat(crs, [lon, box.south]), fromLonLat(crs, [lon, box.north]));
    edge.push(fromLonLat(crs, [box.west, lat]), fromLonLat(crs, [box.east, lat]));
  }
  return boxRound(edge, 0);
}

/** The box round places with a margin, all in metres. */
export function boxRound(points: readonly Point[], margin: number): Box {
  let west = Number.POSITIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (const [x, y] of points) {
    west = Math.min(west, x);
    south = Math.min(south, y);
    east = Math.max(east, x);
    north = Math.max(north, y);
  }
  return { west: west - margin, south: south - margin, east: east + margin, north: north + margin };
}
