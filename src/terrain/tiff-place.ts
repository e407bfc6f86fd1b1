import { UserError } from '../door/user-error.ts';

/** What a GeoTIFF says of where it lies, straight from its tags. */
export interface TiffTags {
  readonly columns: number;
  readonly rows: number;
  readonly tiePoints: readonly number[];
  readonly pixelScale: readonly number[];
  readonly transformation: readonly number[];
  readonly pixelIsPoint: boolean;
}

export interface TiffPlace {
  readonly west: number;
  readonly north: number;
  readonly cellEast: number;
  readonly cellNorth: number;
  /** Rows run from south to north in the file. */
  readonly southUp: boolean;
}

/**
 * Outer north-west corner and cell of a GeoTIFF (OGC GeoTIFF 1.1, annex B.6). A tie-point may stand at any pixel; PixelIsPoint counts
 * from the centre of a pixel, so half a cell is taken off; a matrix may turn the rows over. Throws `UserError` for a rotated image, for
 * ground control points and for no position at all.
 */
export function tiffPlace(tags: TiffTags): TiffPlace {
  const { tiePoints, pixelScale, transformation, columns, rows } = tags;
  const half = tags.pixelIsPoint ? 0.5 : 0;
  let east: number;
  let north: number;
  let stepEast: number;
  let stepNorth: number;
  if (transformation.length >= 16) {
    const [a, b, , x, c, d, , y] = transformation as number[];
    if (b !== 0 || c !== 0)
      throw new UserError({
        what: 'the GeoTIFF is rotated against its grid',
        got: `a matrix with ${b} and ${c} beside the diagonal`,
        expected: 'rows along the grid: warp it to north-up with any general tool',
      });
    stepEast = a!;
    stepNorth = d!;
    east = x! - half * stepEast;
    north = y! - half * stepNorth;
  } else if (pixelScale.length >= 2 && tiePoints.length >= 6) {
    const [i, j, , x, y] = tiePoints as number[];
    stepEast = pixelScale[0]!;
    // the sign of the scale is not to be trusted: rows of a file with a scale run south
    stepNorth = -Math.abs(pixelScale[1]!);
    east = x! - (i! + half) * stepEast;
    north = y! - (j! + half) * stepNorth;
  } else if (tiePoints.length >= 6) {
    throw new UserError({
      what: 'the GeoTIFF is placed by ground control points only',
      got: `${Math.floor(tiePoints.length / 6)} tie-points and no scale`,
      expected: 'a corner and a cell size: warp it to north-up with any general tool',
    });
  } else {
    throw new UserError({
      what: 'the TIFF says nothing of where it lies',
      got: 'no tie-point, scale or matrix',
      expected: 'a GeoTIFF of heights',
    });
  }
  const southUp = stepNorth > 0;
  if (southUp) north += rows * stepNorth;
  const cellEast = Math.abs(stepEast);
  const cellNorth = Math.abs(stepNorth);
  if (stepEast < 0) east += columns * stepEast;
  const sound = cellEast > 0 && cellNorth > 0 && Math.abs(east) < 1e9 && Math.abs(north) < 1e9;
  if (!sound || stepEast < 0 || !(cellEast < 1e6) || !(cellNorth < 1e6))
    throw new UserError({
      what: 'the place of the GeoTIFF makes no sense',
      got: `corner ${east}, ${north}, cell ${stepEast} × ${stepNorth}`,
      expected: 'finite numbers and a cell above zero',
    });
  return { west: east, north, cellEast, cellNorth, southUp };
}

/** Metres of the units a height may be in: EPSG unit codes, and the words of GDAL's unit type. */
export function metresPerUnit(unit: number | string | undefined): number | undefined {
  if (unit === undefined || unit === '') return 1;
  if (typeof unit === 'number') return UNIT_CODES.get(unit);
  return UNIT_WORDS.get(unit.trim().toLowerCase());
}

const FOOT = 0.3048;
const US_FOOT = 1200 / 3937;

const UNIT_CODES = new Map<number, number>([
  [9001, 1],
  [9002, FOOT],
  [9003, US_FOOT],
  [9036, 1000],
]);

/** Vertical systems of the EPSG list whose heights are in feet; files name these without saying the unit. */
const VERTICAL_SYSTEMS = new Map<number, number>([
  [5702, US_FOOT],
  [6360, US_FOOT],
  [8052, US_FOOT],
  [6130, FOOT],
  [6131, FOOT],
  [6132, FOOT],
  [8050, FOOT],
  [8228, FOOT],
]);

/** Vertical systems that count downwards. */
export const DEPTH_SYSTEMS: readonly number[] = [5614, 5715, 6357, 6358, 6359, 8051, 8053];

/** Metres per unit of a vertical system that is known to be in feet. */
export function feetOf(verticalSystem: unknown): number | undefined {
  return typeof verticalSystem === 'number' ? VERTICAL_SYSTEMS.get(verticalSystem) : undefined;
}

const UNIT_WORDS = new Map<string, number>([
  ['m', 1],
  ['metre', 1],
  ['metres', 1],
  ['meter', 1],
  ['meters', 1],
  ['ft', FOOT],
  ['foot', FOOT],
  ['feet', FOOT],
  ['us survey foot', US_FOOT],
  ['us_survey_foot', US_FOOT],
  ['ftus', US_FOOT],
  ['us-ft', US_FOOT],
  ['km', 1000],
  ['dm', 0.1],
  ['decimetre', 0.1],
  ['cm', 0.01],
  ['centimetre', 0.01],
  ['mm', 0.001],
]);
