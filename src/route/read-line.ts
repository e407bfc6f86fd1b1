import { gpx } from '@tmcw/togeojson';
import { DOMParser } from '@xmldom/xmldom';
import { UserError } from '../door/user-error.ts';
import { distance, type Point } from '../math/plane.ts';
import { fromLonLat } from '../terrain/projection.ts';

/** Bounds of a drawn or recorded line: characters of the file, and points. */
const MOST_CHARACTERS = 20_000_000;
const MOST_POINTS = 200_000;

/**
 * The line in a GPX file (the longest track or route; its segments joined) or a GeoJSON file (the longest line), in metres of a CRS.
 * GeoJSON is read as longitude and latitude (RFC 7946).
 */
export function readLine(text: string, file: string, crs: string): Point[] {
  if (text.length > MOST_CHARACTERS) {
    throw new UserError({
      what: 'the file of the drawn line is too large',
      where: file,
      got: `${Math.round(text.length / 1e6)} million characters`,
      expected: `at most ${MOST_CHARACTERS / 1e6} million`,
    });
  }
  const lines = /^\s*</.test(text.replace(/^\ufeff/, '')) ? gpxLines(text, file) : geojsonLines(text, file);
  const best = lines.reduce<readonly (readonly number[])[]>((a, b) => (b.length > a.length ? b : a), []);
  if (best.length > MOST_POINTS) {
    throw new UserError({
      what: 'the drawn line has too many points',
      where: file,
      got: `${best.length}`,
      expected: `at most ${MOST_POINTS}`,
    });
  }
  const points = best.map((p) => fromLonLat(crs, lonLat(p, file)));
  const line = points.filter((p, i) => i === 0 || distance(p, points[i - 1]!) > 0);
  if (line.length < 2) {
    throw new UserError({
      what: 'there is no line in this file',
      where: file,
      got: `${line.length} point${line.length === 1 ? '' : 's'}`,
      expected: 'a track or route (GPX) or a LineString (GeoJSON) of two points or more',
    });
  }
  return line;
}

function lonLat(p: readonly number[], file: string): [number, number] {
  const [lon, lat] = p;
  if (typeof lon === 'number' && typeof lat === 'number' && Number.isFinite(lon) && Number.isFinite(lat)) {
    return [lon, lat];
  }
  throw new UserError({
    what: 'a point of the drawn line has no place',
    where: file,
    got: JSON.stringify(p).slice(0, 60),
    expected: 'longitude and latitude in degrees',
  });
}

function gpxLines(text: string, file: string): number[][][] {
  // A document type can only bring entities, and entities only trouble.
  if (/<!DOCTYPE/i.test(text)) {
    throw new UserError({ what: 'a GPX file needs no document type', where: file, got: '<!DOCTYPE …>' });
  }
  let collection: ReturnType<typeof gpx>;
  try {
    const parser = new DOMParser({
      onError: (level, message) => {
        if (level !== 'warning') throw new Error(message);
      },
    });
    const document = parser.parseFromString(text, 'text/xml');
    collection = gpx(document as unknown as Document);
  } catch (error) {
    throw new UserError({
      what: 'this file is not well-formed GPX',
      where: file,
      got: firstLine(error),
      expected: 'GPX 1.0 or 1.1',
    });
  }
  return collection.features.flatMap((f) => linesOf(f.geometry));
}

function geojsonLines(text: string, file: string): number[][][] {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new UserError({
      what: 'this file is neither GPX nor GeoJSON',
      where: file,
      got: firstLine(error),
      expected: 'a track or route (GPX) or a LineString (GeoJSON)',
    });
  }
  return linesIn(value, 0);
}

/** Lines of any GeoJSON object: a collection, a feature or a geometry. */
function linesIn(value: unknown, depth: number): number[][][] {
  if (typeof value !== 'object' || value === null || depth > 4) return [];
  const object = value as Record<string, unknown>;
  if (Array.isArray(object.features)) return object.features.flatMap((f) => linesIn(f, depth + 1));
  if (Array.isArray(object.geometries)) return object.geometries.flatMap((g) => linesIn(g, depth + 1));
  if (object.type === 'Feature') return linesIn(object.geometry, depth + 1);
  return linesOf(object as unknown as GeoJSON.Geometry);
}

function linesOf(geometry: GeoJSON.Geometry | null): number[][][] {
  if (geometry?.type === 'LineString' && isLine(geometry.coordinates)) return [geometry.coordinates];
  if (geometry?.type === 'MultiLineString' && Array.isArray(geometry.coordinates)) {
    return [geometry.coordinates.filter(isLine).flat()];
  }
  if (geometry?.type === 'GeometryCollection') return geometry.geometries.flatMap(linesOf);
  return [];
}

function isLine(coordinates: unknown): coordinates is number[][] {
  return Array.isArray(coordinates) && coordinates.every((p) => Array.isArray(p));
}

function firstLine(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).split('\n')[0]!.slice(0, 120);
}
