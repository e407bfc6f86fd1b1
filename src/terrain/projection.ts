import proj4 from 'proj4';
import { UserError } from '../door/user-error.ts';
import { RADIANS, wrapHalf } from '../math/bearing.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import { atan2 } from '../math/portable.ts';
import { type CrsEntry, crsEntry } from './epsg.ts';

const WGS84 = '+proj=longlat +datum=WGS84 +no_defs';

interface Converter {
  readonly entry: CrsEntry;
  /** CRS ↔ WGS 84 longitude and latitude, through the datum shift. */
  readonly world: { forward(c: number[]): number[]; inverse(c: number[]): number[] };
  /** CRS ↔ longitude and latitude on its own datum, for convergence. */
  readonly datum: { forward(c: number[]): number[]; inverse(c: number[]): number[] };
}

const converters = new Map<string, Converter>();

/** The list's entry of a code. Throws `UserError` for a code that the list does not hold. */
export function knownCrs(crs: string): CrsEntry {
  const entry = crsEntry(crs);
  if (entry === undefined)
    throw new UserError({
      what: 'coordinate system not in the list',
      got: crs.slice(0, 80),
      expected:
        'a projected EPSG code such as EPSG:27700 or EPSG:32633; reproject the data with any general tool',
    });
  return entry;
}

/** As `knownCrs`, and its metres are metres on the ground: what a terrain may be in. */
export function groundCrs(crs: string): CrsEntry {
  const entry = knownCrs(crs);
  if (entry.use !== 'ground')
    throw new UserError({
      what: 'coordinate system whose units are not metres on the ground',
      got: `${crs} (${entry.name})`,
      expected: 'a projected one in metres, such as a UTM zone; `prepare` reprojects',
    });
  return entry;
}

/** proj's definition of a system on its own datum, without the shift to WGS 84. */
export function plainDefinition(entry: CrsEntry): string {
  const ellipsoid = entry.ellipsoid === '' ? '' : ` +ellps=${entry.ellipsoid}`;
  return `+proj=${entry.projection}${ellipsoid} +units=m +no_defs`;
}

function shiftedDefinition(entry: CrsEntry): string {
  const plain = plainDefinition(entry);
  // web Mercator is a sphere on the numbers of WGS 84
  if (entry.ellipsoid === '') return plain;
  return `${plain} +towgs84=${entry.shift === '' ? '0,0,0' : entry.shift}`;
}

function converterOf(crs: string): Converter {
  const had = converters.get(crs);
  if (had !== undefined) return had;
  const entry = knownCrs(crs);
  const onDatum = entry.ellipsoid === '' ? '+a=6378137 +b=6378137' : `+ellps=${entry.ellipsoid}`;
  const made: Converter = {
    entry,
    world: proj4(WGS84, shiftedDefinition(entry)),
    datum: proj4(`+proj=longlat ${onDatum} +no_defs`, plainDefinition(entry)),
  };
  converters.set(crs, made);
  return made;
}

/**
 * From coordinates of one system to those of another, unrounded and without a look at the areas of use: for rasters, where one
 * check of the middle stands for all. NaN where a projection gives no number.
 */
export function transformation(
  from: string,
  to: string,
): (x: number, y: number) => readonly [number, number] {
  const { forward } = proj4(shiftedDefinition(knownCrs(from)), shiftedDefinition(knownCrs(to)));
  return (x, y) => {
    const at = forward([x, y]);
    const sound = Number.isFinite(at[0]) && Number.isFinite(at[1]);
    return sound ? [at[0]!, at[1]!] : [Number.NaN, Number.NaN];
  };
}

function inArea(entry: CrsEntry, lon: number, lat: number): boolean {
  const [west, south, east, north] = entry.area;
  if (!(lat >= south && lat <= north)) return false;
  return (
    (lon >= west && lon <= east) ||
    (lon + 360 >= west && lon + 360 <= east) ||
    (lon - 360 >= west && lon - 360 <= east)
  );
}

function refuse(entry: CrsEntry, got: string): never {
  const [west, south, east, north] = entry.area;
  throw new UserError({
    what: `place outside the area of ${entry.code} (${entry.name})`,
    got,
    expected: `longitude ${west} to ${east}, latitude ${south} to ${north}`,
  });
}

/** Longitude and latitude on WGS 84 in degrees, rounded to 1e-9°. Throws `UserError` off the CRS's area. */
export function toLonLat(crs: string, point: Point): readonly [lon: number, lat: number] {
  const { entry, world } = converterOf(crs);
  const got = `${point[0]}, ${point[1]}`;
  if (!Number.isFinite(point[0]) || !Number.isFinite(point[1])) refuse(entry, got);
  const [lon, lat] = world.inverse([point[0], point[1]]) as [number, number];
  if (!Number.isFinite(lon) || !Number.isFinite(lat) || !inArea(entry, lon, lat)) refuse(entry, got);
  return [Math.round(lon * 1e9) / 1e9, Math.round(lat * 1e9) / 1e9];
}

/** Metres east and north, snapped to 1/1024 m, of longitude and latitude on WGS 84 in degrees. Throws `UserError` off the CRS's area. */
export function fromLonLat(crs: string, lonLat: readonly [number, number]): Point {
  const { entry, world } = converterOf(crs);
  const [lon, lat] = lonLat;
  const got = `longitude ${lon}, latitude ${lat}`;
  if (!Number.isFinite(lon) || !Number.isFinite(lat) || !inArea(entry, lon, lat)) refuse(entry, got);
  const [east, north] = world.forward([lon, lat]) as [number, number];
  if (!Number.isFinite(east) || !Number.isFinite(north)) refuse(entry, got);
  return snapPoint([east, north]);
}

/** Half the base of the finite difference along the meridian, degrees. */
const STEP = 0.001;

/**
 * Convergence in degrees, rounded to 1e-9°: + where grid north lies east of true north. Grid bearing = true bearing − convergence.
 * Taken along the meridian of the CRS's own datum. Throws `UserError` off the CRS's area.
 */
export function convergenceDegrees(crs: string, point: Point): number {
  toLonLat(crs, point);
  const { datum } = converterOf(crs);
  const [lon, lat] = datum.inverse([point[0], point[1]]) as [number, number];
  const low = datum.forward([lon, lat - STEP]) as [number, number];
  const high = datum.forward([lon, lat + STEP]) as [number, number];
  const trueNorth = atan2(high[0] - low[0], high[1] - low[1]);
  return Math.round((wrapHalf(-trueNorth) / RADIANS) * 1e9) / 1e9;
}

/** UTM zone of a place, with the exceptions of south-west Norway and Svalbard. Longitude 180 belongs to zone 1. */
export function utmZone(lonLat: readonly [number, number]): number {
  const [lon, lat] = lonLat;
  const turned = (((lon + 180) % 360) + 360) % 360;
  const zone = Math.min(Math.floor(turned / 6), 59) + 1;
  if (lat >= 56 && lat < 64 && lon >= 3 && lon < 12) return 32;
  if (lat >= 72 && lat <= 84 && lon >= 0 && lon < 42)
    return lon < 9 ? 31 : lon < 21 ? 33 : lon < 33 ? 35 : 37;
  return zone;
}

/** EPSG code of the WGS 84 UTM zone of a place. Throws `UserError` nearer to a pole than UTM reaches. */
export function utmFor(lonLat: readonly [number, number]): string {
  const [lon, lat] = lonLat;
  if (!(lat >= -80 && lat <= 84) || !(lon >= -180 && lon <= 180))
    throw new UserError({
      what: 'place outside the UTM zones',
      got: `longitude ${lon}, latitude ${lat}`,
      expected: 'longitude −180 to 180, latitude −80 to 84',
    });
  return `EPSG:${(lat < 0 ? 32700 : 32600) + utmZone(lonLat)}`;
}
