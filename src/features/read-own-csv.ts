import { didYouMean } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import type { Point } from '../math/plane.ts';
import { type CsvRow, columnName, readCsv } from './csv.ts';
import { type FeaturesRead, gather, type ReadOptions } from './gather.ts';
import type { Item } from './geojson-text.ts';
import { DOUBT_NAMES } from './given-doubt.ts';
import { plainText } from './plain-text.ts';

export interface OwnOptions extends Omit<ReadOptions, 'foreign' | 'featuresInCrs'> {
  /** Place of a grid reference in metres of the terrain's CRS; throws a UserError for none. */
  readonly fromGrid: (reference: string) => Point;
}

const GRID = ['grid', 'gridreference', 'gridref', 'place', 'gridreferenceorlon/lat'];
const NUMBERS = new Set<string>(DOUBT_NAMES.filter((n) => !['visibility', 'lastSeen', 'head'].includes(n)));
const COLUMNS = [
  ...GRID,
  ...['lon', 'longitude', 'lat', 'latitude', 'id', 'kind', 'name', 'row', 'rowPlace'],
  ...DOUBT_NAMES,
].map(columnName);

/**
 * Reads a user's own point features from a table: `id,kind,grid reference,name,exists,last seen` or `lon,lat` in degrees in place of
 * the grid reference (which may itself hold "-2.10 54.30"), and any other doubt of a feature as a column. Origin is `drawn`.
 */
export function readOwnCsv(text: string, options: OwnOptions): FeaturesRead {
  const { where } = options;
  const { columns, rows } = readCsv(text, where);
  checkColumns(columns, where);
  const items = rows.map((row): Item => {
    const place = `${where}, line ${row.line}`;
    return {
      geometry: { type: 'Point', coordinates: placeOf(row, place, options) },
      properties: propertiesOf(row),
    };
  });
  const read = gather(
    items,
    { origin: 'drawn', ...options, featuresInCrs: true },
    (place, got) => new UserError({ what: 'the place is wrong', where: place, got }),
  );
  return { ...read, attribution: null };
}

function checkColumns(columns: readonly string[], where: string): void {
  for (const column of columns) {
    const meant = column === '' || COLUMNS.includes(column) ? null : didYouMean(column, COLUMNS);
    if (meant === null) continue;
    throw new UserError({
      what: 'this column is not known',
      where,
      got: plainText(column, 40),
      expected: `did you mean ${meant}?`,
    });
  }
  const has = (...names: string[]) => names.some((n) => columns.includes(n));
  const placed = has(...GRID) || (has('lon', 'longitude') && has('lat', 'latitude'));
  if (has('id') && has('kind') && placed) return;
  throw new UserError({
    what: 'columns are missing',
    where,
    got: plainText(columns.join(','), 60),
    expected: 'id, kind and either a grid reference or lon and lat',
  });
}

function placeOf({ cells }: CsvRow, place: string, { fromGrid, fromLonLat }: OwnOptions): Point {
  const grid = GRID.map((name) => cells[name] ?? '').find((c) => c !== '') ?? '';
  const pair = /^(-?\d{1,3}(?:\.\d+)?)\s*[\s,;/]\s*(-?\d{1,2}(?:\.\d+)?)$/.exec(grid);
  const lon = pair?.[1] ?? cells.lon ?? cells.longitude ?? '';
  const lat = pair?.[2] ?? cells.lat ?? cells.latitude ?? '';
  if (grid === '' && (lon === '' || lat === '')) {
    throw new UserError({
      what: 'a row has no place',
      where: place,
      expected: 'a grid reference or lon and lat',
    });
  }
  const said = grid === '' ? `${lon} ${lat}` : grid;
  if (grid === '' || pair !== null) {
    const [x, y] = [Number(lon), Number(lat)];
    if (!(Math.abs(x) <= 180 && Math.abs(y) <= 90)) {
      throw new UserError({
        what: 'a place is not longitude and latitude in degrees',
        where: place,
        got: plainText(said, 40),
      });
    }
    return at(place, said, () => fromLonLat(x, y));
  }
  return at(place, said, () => fromGrid(grid));
}

/** A fault of the projection or of the grid reference, with its row. */
function at(place: string, said: string, project: () => Point): Point {
  try {
    return project();
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    const { what, expected } = error;
    throw new UserError({
      what,
      where: place,
      got: plainText(said, 40),
      ...(expected === undefined ? {} : { expected }),
    });
  }
}

function propertiesOf({ cells }: CsvRow): Record<string, unknown> {
  const properties: Record<string, unknown> = {};
  for (const name of ['id', 'kind', 'name', 'row', 'rowPlace', ...DOUBT_NAMES]) {
    const cell = cells[columnName(name)];
    if (cell === undefined || cell === '') continue;
    const isNumber = NUMBERS.has(name) || name === 'rowPlace';
    // what is no number is left as text, for the reader of doubts to complain of by name
    properties[name] = isNumber && Number.isFinite(Number(cell)) ? Number(cell) : cell;
  }
  return properties;
}
