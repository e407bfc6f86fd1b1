import Mgrs, { Utm } from 'geodesy/mgrs.js';
import OsGridRef from 'geodesy/osgridref.js';
import { UserError } from '../door/user-error.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import { utmZoneOf } from './epsg.ts';
import { fromLonLat, groundCrs, toLonLat, utmFor, utmZone } from './projection.ts';

const BRITISH = /^([HNOST][A-HJ-Z])\s*(\d+)\s*(\d*)$/;
const IRISH = /^([A-HJ-Z])\s*(\d+)\s*(\d*)$/;
const MILITARY = /^(\d{1,2})\s*([C-HJ-NP-X])\s*([A-HJ-NP-Z])([A-HJ-NP-V])\s*(\d*)\s*(\d*)$/;
const UTM = /^(\d{1,2})\s*([NS])\s+(\d{5,7}(?:\.\d+)?)[\s,]+(\d{1,8}(?:\.\d+)?)$/;
const PLAIN = /^(-?\d{4,8}(?:\.\d+)?)\s*[,\s]\s*(-?\d{4,8}(?:\.\d+)?)$/;

const SYSTEMS: Readonly<Record<string, 'british' | 'irish'>> = {
  'EPSG:27700': 'british',
  'EPSG:29902': 'irish',
  'EPSG:29903': 'irish',
};

const EXAMPLES = { british: 'NY 213 105', irish: 'R 8134 8352', other: '33U VP 123 456' };

/**
 * The place that a grid reference names, metres in `crs`: the south-west corner of its square, as the reference is defined.
 * British letters go with EPSG:27700, Irish ones with EPSG:29902 and 29903, MGRS and UTM ("32 N 448251 5411943") with any; plain
 * easting and northing too. Throws `UserError` for anything else.
 */
export function parseGridReference(text: string, crs: string): Point {
  groundCrs(crs);
  const system = SYSTEMS[crs] ?? 'other';
  const upper = text.trim().toUpperCase();
  try {
    const plain = PLAIN.exec(upper);
    if (plain !== null) return snapPoint([Number(plain[1]), Number(plain[2])]);
    if (system === 'british' && BRITISH.test(upper)) return british(upper);
    if (system === 'irish' && IRISH.test(upper)) return irish(upper);
    const utm = UTM.exec(upper);
    if (utm !== null) return fromUtm(Number(utm[1]), utm[2] === 'S', Number(utm[3]), Number(utm[4]), crs);
    const military = MILITARY.exec(upper);
    if (military !== null) return fromMgrs(military, crs);
  } catch (error) {
    if (error instanceof UserError) throw error;
  }
  throw new UserError({
    what: `grid reference not understood in ${crs}`,
    got: `"${text.slice(0, 60)}"`,
    expected: `for example "${EXAMPLES[system]}" or easting and northing`,
  });
}

/**
 * A place as a grid reference with `figures` digits (4 = 1 km, 6 = 100 m, 8 = 10 m, 10 = 1 m): British or Irish letters in those
 * systems, MGRS elsewhere. Truncated to the square's south-west corner. Null where the system has no letters for the place.
 */
export function printGridReference(point: Point, crs: string, figures: number): string | null {
  const system = SYSTEMS[crs];
  try {
    if (system === 'british') return new OsGridRef(point[0], point[1]).toString(figures);
    if (system === 'irish') return printIrish(point, figures);
    const lonLat = toLonLat(crs, point);
    const zone = utmZone(lonLat);
    const own = utmZoneOf(crs);
    const [east, north] =
      own !== undefined && own.zone === zone && own.south === lonLat[1] < 0 && own.datum !== 'ED50'
        ? point
        : fromLonLat(utmFor(lonLat), lonLat);
    return new Utm(zone, lonLat[1] < 0 ? 'S' : 'N', east, north).toMgrs().toString(figures);
  } catch {
    return null;
  }
}

/** The two halves of the figures as metres inside a 100 km square; undefined when they do not match. */
function metresInSquare(first: string, second: string): Point | undefined {
  const all = first + second;
  const half = all.length / 2;
  if (all.length % 2 !== 0 || half > 5 || (second !== '' && first.length !== second.length)) return undefined;
  return [Number(all.slice(0, half).padEnd(5, '0')), Number(all.slice(half).padEnd(5, '0'))];
}

function british(text: string): Point {
  const [, letters, first, second] = BRITISH.exec(text)!;
  if (metresInSquare(first!, second!) === undefined) throw new RangeError('figures');
  const half = (first! + second!).length / 2;
  const figures = first! + second!;
  const { easting, northing } = OsGridRef.parse(
    `${letters} ${figures.slice(0, half)} ${figures.slice(half)}`,
  );
  return [easting, northing];
}

/** 25 letters without I, row by row from the north-west, each a 100 km square. */
const IRISH_LETTERS = 'ABCDEFGHJKLMNOPQRSTUVWXYZ';

function irish(text: string): Point {
  const [, letter, first, second] = IRISH.exec(text)!;
  const metres = metresInSquare(first!, second!);
  if (metres === undefined) throw new RangeError('figures');
  const i = IRISH_LETTERS.indexOf(letter!);
  return [(i % 5) * 100_000 + metres[0], (4 - Math.floor(i / 5)) * 100_000 + metres[1]];
}

function printIrish([east, north]: Point, figures: number): string | null {
  const column = Math.floor(east / 100_000);
  const row = 4 - Math.floor(north / 100_000);
  if (column < 0 || column > 4 || row < 0 || row > 4) return null;
  const half = figures / 2;
  const digits = (metres: number) =>
    String(Math.floor(metres % 100_000))
      .padStart(5, '0')
      .slice(0, half);
  return `${IRISH_LETTERS[row * 5 + column]} ${digits(east)} ${digits(north)}`;
}

function fromMgrs(match: RegExpExecArray, crs: string): Point {
  const [, zone, band, column, row, first, second] = match;
  const metres = metresInSquare(first!, second!);
  if (metres === undefined) throw new RangeError('figures');
  const pad = (n: number) => String(n).padStart(5, '0');
  const text = `${zone!.padStart(2, '0')}${band} ${column}${row} ${pad(metres[0])} ${pad(metres[1])}`;
  const { easting, northing } = Mgrs.parse(text).toUtm();
  return fromUtm(Number(zone), band! < 'N', easting, northing, crs);
}

function fromUtm(zone: number, south: boolean, east: number, north: number, crs: string): Point {
  const own = utmZoneOf(crs);
  if (own !== undefined && own.zone === zone && own.south === south && own.datum !== 'ED50')
    return snapPoint([east, north]);
  return fromLonLat(crs, toLonLat(`EPSG:${(south ? 32700 : 32600) + zone}`, [east, north]));
}
