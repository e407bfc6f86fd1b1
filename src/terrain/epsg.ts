/** A coordinate system the engine knows. Datum kept apart from the projection, so that convergence can be had on the datum itself. */
export interface CrsEntry {
  readonly code: string;
  readonly name: string;
  /** Degrees can be read, never walked on. Mercator and the like can be read, but their metres are not metres on the ground. */
  readonly use: 'ground' | 'reprojected' | 'degrees';
  /** Projection part of the proj string. */
  readonly projection: string;
  readonly ellipsoid: string;
  /** Shift to WGS 84 in proj's `towgs84` order; '' where the datum is WGS 84 to within a metre. */
  readonly shift: string;
  /** Where it may be used, degrees of WGS 84: west, south, east, north. */
  readonly area: readonly [number, number, number, number];
}

type Row = readonly [
  code: number,
  name: string,
  projection: string,
  ellipsoid: string,
  shift: string,
  area: readonly [number, number, number, number],
];

const OSGB36 = '446.448,-125.157,542.060,0.1502,0.2470,0.8421,-20.4894';
const TM75 = '482.5,-130.6,564.6,-1.042,-0.214,-0.631,8.15';
const MGI = '577.326,90.129,463.919,5.137,1.474,5.297,2.4232';
const CH1903 = '674.374,15.056,405.346';
const DHDN = '598.1,73.7,418.2,0.202,0.045,-2.455,6.7';
const AMERSFOORT = '565.4171,50.3319,465.5524,-0.398957,0.343988,-1.8774,4.0725';

/** One-off systems; the UTM families below are rules. Shifts are the common seven- or three-parameter ones: good to 1–5 m. */
const GROUND: readonly Row[] = [
  [
    27700,
    'British National Grid',
    'tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000',
    'airy',
    OSGB36,
    [-9, 49.5, 2.9, 61.5],
  ],
  [
    2157,
    'Irish Transverse Mercator',
    'tmerc +lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000',
    'GRS80',
    '',
    [-11.5, 51, -5, 56],
  ],
  [
    29902,
    'Irish Grid (TM65)',
    'tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000',
    'mod_airy',
    TM75,
    [-11.5, 51, -5, 56],
  ],
  [
    29903,
    'Irish Grid (TM75)',
    'tmerc +lat_0=53.5 +lon_0=-8 +k=1.000035 +x_0=200000 +y_0=250000',
    'mod_airy',
    TM75,
    [-11.5, 51, -5, 56],
  ],
  [
    31287,
    'Austria Lambert (MGI)',
    'lcc +lat_1=49 +lat_2=46 +lat_0=47.5 +lon_0=13.33333333333333 +x_0=400000 +y_0=400000',
    'bessel',
    MGI,
    [9, 46, 17.5, 49.5],
  ],
  [
    31254,
    'Austria GK West (MGI)',
    'tmerc +lat_0=0 +lon_0=10.33333333333333 +k=1 +x_0=0 +y_0=-5000000',
    'bessel',
    MGI,
    [9, 46, 17.5, 49.5],
  ],
  [
    31255,
    'Austria GK Central (MGI)',
    'tmerc +lat_0=0 +lon_0=13.33333333333333 +k=1 +x_0=0 +y_0=-5000000',
    'bessel',
    MGI,
    [9, 46, 17.5, 49.5],
  ],
  [
    31256,
    'Austria GK East (MGI)',
    'tmerc +lat_0=0 +lon_0=16.33333333333333 +k=1 +x_0=0 +y_0=-5000000',
    'bessel',
    MGI,
    [9, 46, 17.5, 49.5],
  ],
  [
    2056,
    'Swiss LV95',
    'somerc +lat_0=46.95240555555556 +lon_0=7.439583333333333 +k_0=1 +x_0=2600000 +y_0=1200000',
    'bessel',
    CH1903,
    [5.5, 45.5, 11, 48.2],
  ],
  [
    21781,
    'Swiss LV03',
    'somerc +lat_0=46.95240555555556 +lon_0=7.439583333333333 +k_0=1 +x_0=600000 +y_0=200000',
    'bessel',
    CH1903,
    [5.5, 45.5, 11, 48.2],
  ],
  [3067, 'Finland TM35FIN', 'utm +zone=35', 'GRS80', '', [18, 58.5, 33, 71]],
  [3006, 'Sweden SWEREF99 TM', 'utm +zone=33', 'GRS80', '', [9, 54, 26, 70]],
  [
    2193,
    'New Zealand Transverse Mercator',
    'tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000',
    'GRS80',
    '',
    [160, -56, 180, -25],
  ],
  [
    2154,
    'France Lambert-93',
    'lcc +lat_1=49 +lat_2=44 +lat_0=46.5 +lon_0=3 +x_0=700000 +y_0=6600000',
    'GRS80',
    '',
    [-10, 41, 10.5, 52],
  ],
  [
    31466,
    'Germany GK zone 2 (DHDN)',
    'tmerc +lat_0=0 +lon_0=6 +k=1 +x_0=2500000 +y_0=0',
    'bessel',
    DHDN,
    [4, 47, 16, 56],
  ],
  [
    31467,
    'Germany GK zone 3 (DHDN)',
    'tmerc +lat_0=0 +lon_0=9 +k=1 +x_0=3500000 +y_0=0',
    'bessel',
    DHDN,
    [4, 47, 16, 56],
  ],
  [
    31468,
    'Germany GK zone 4 (DHDN)',
    'tmerc +lat_0=0 +lon_0=12 +k=1 +x_0=4500000 +y_0=0',
    'bessel',
    DHDN,
    [4, 47, 16, 56],
  ],
  [
    28992,
    'Netherlands RD New',
    'sterea +lat_0=52.15616055555555 +lon_0=5.38763888888889 +k=0.9999079 +x_0=155000 +y_0=463000',
    'bessel',
    AMERSFOORT,
    [3, 50.5, 7.5, 53.8],
  ],
  [
    3812,
    'Belgium Lambert 2008',
    'lcc +lat_1=49.83333333333334 +lat_2=51.16666666666666 +lat_0=50.797815 +lon_0=4.359215833333333 +x_0=649328 +y_0=665262',
    'GRS80',
    '',
    [2, 49, 7, 52],
  ],
  [
    2180,
    'Poland CS92',
    'tmerc +lat_0=0 +lon_0=19 +k=0.9993 +x_0=500000 +y_0=-5300000',
    'GRS80',
    '',
    [13.5, 48.5, 25, 55.5],
  ],
  [
    3794,
    'Slovenia 1996',
    'tmerc +lat_0=0 +lon_0=15 +k=0.9999 +x_0=500000 +y_0=-5000000',
    'GRS80',
    '',
    [13, 45, 17, 47],
  ],
  [
    3765,
    'Croatia HTRS96',
    'tmerc +lat_0=0 +lon_0=16.5 +k=0.9999 +x_0=500000 +y_0=0',
    'GRS80',
    '',
    [13, 42, 20, 47],
  ],
  [
    3763,
    'Portugal TM06',
    'tmerc +lat_0=39.66825833333333 +lon_0=-8.133108333333334 +k=1 +x_0=0 +y_0=0',
    'GRS80',
    '',
    [-10, 36.5, -6, 42.5],
  ],
  [
    3844,
    'Romania Stereo 70',
    'sterea +lat_0=46 +lon_0=25 +k=0.99975 +x_0=500000 +y_0=500000',
    'krass',
    '2.329,-147.042,-92.08,0.309,-0.325,-0.497,5.69',
    [20, 43, 30, 49],
  ],
  [
    3346,
    'Lithuania LKS94',
    'tmerc +lat_0=0 +lon_0=24 +k=0.9998 +x_0=500000 +y_0=0',
    'GRS80',
    '',
    [20, 53, 27, 57],
  ],
  [
    3059,
    'Latvia LKS92',
    'tmerc +lat_0=0 +lon_0=24 +k=0.9996 +x_0=500000 +y_0=-6000000',
    'GRS80',
    '',
    [20, 55, 29, 59],
  ],
  [
    3301,
    'Estonia 1997',
    'lcc +lat_1=59.33333333333334 +lat_2=58 +lat_0=57.51755393055556 +lon_0=24 +x_0=500000 +y_0=6375000',
    'GRS80',
    '',
    [20, 57, 29, 60.5],
  ],
  [
    3057,
    'Iceland ISN93',
    'lcc +lat_1=64.25 +lat_2=65.75 +lat_0=65 +lon_0=-19 +x_0=500000 +y_0=500000',
    'GRS80',
    '',
    [-31, 59, -10, 70],
  ],
  [
    5316,
    'Faroe TM',
    'tmerc +lat_0=0 +lon_0=-7 +k=0.999997 +x_0=200000 +y_0=-6000000',
    'GRS80',
    '',
    [-9, 61, -5, 63],
  ],
];

const REPROJECTED: readonly Row[] = [
  [
    3857,
    'web Mercator',
    'merc +a=6378137 +b=6378137 +lat_ts=0 +lon_0=0 +x_0=0 +y_0=0 +k=1 +nadgrids=@null +wktext',
    '',
    '',
    [-180, -85.06, 180, 85.06],
  ],
  [3395, 'world Mercator', 'merc +lon_0=0 +k=1 +x_0=0 +y_0=0', 'WGS84', '', [-180, -80, 180, 84]],
  [3035, 'Europe LAEA', 'laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000', 'GRS80', '', [-35, 24, 45, 85]],
];

const DEGREES: readonly Row[] = [
  [4326, 'WGS 84', 'longlat', 'WGS84', '', [-180, -90, 180, 90]],
  [4258, 'ETRS89', 'longlat', 'GRS80', '', [-40, 25, 45, 85]],
  [4269, 'NAD83', 'longlat', 'GRS80', '', [-180, 10, 180, 87]],
  [4283, 'GDA94', 'longlat', 'GRS80', '', [90, -62, 175, -6]],
  [4167, 'NZGD2000', 'longlat', 'GRS80', '', [-180, -57, 180, -24]],
  [4277, 'OSGB36', 'longlat', 'airy', OSGB36, [-9, 49.5, 2.9, 61.5]],
];

const UTM_WIDTH = 18;

interface UtmFamily {
  readonly datum: string;
  /** EPSG code of zone z is base + z. */
  readonly base: number;
  readonly zones: readonly [number, number];
  readonly south: boolean;
  readonly ellipsoid: string;
  readonly shift: string;
}

const UTM_FAMILIES: readonly UtmFamily[] = [
  { datum: 'WGS 84', base: 32600, zones: [1, 60], south: false, ellipsoid: 'WGS84', shift: '' },
  { datum: 'WGS 84', base: 32700, zones: [1, 60], south: true, ellipsoid: 'WGS84', shift: '' },
  { datum: 'ETRS89', base: 25800, zones: [28, 38], south: false, ellipsoid: 'GRS80', shift: '' },
  { datum: 'NAD83', base: 26900, zones: [1, 23], south: false, ellipsoid: 'GRS80', shift: '' },
  { datum: 'GDA94', base: 28300, zones: [48, 58], south: true, ellipsoid: 'GRS80', shift: '' },
  { datum: 'ED50', base: 23000, zones: [28, 38], south: false, ellipsoid: 'intl', shift: '-87,-98,-121' },
];

function fromRow(row: Row, use: CrsEntry['use']): CrsEntry {
  const [code, name, projection, ellipsoid, shift, area] = row;
  return { code: `EPSG:${code}`, name, use, projection, ellipsoid, shift, area };
}

const FIXED = new Map<string, CrsEntry>(
  [
    ...GROUND.map((row) => fromRow(row, 'ground')),
    ...REPROJECTED.map((row) => fromRow(row, 'reprojected')),
    ...DEGREES.map((row) => fromRow(row, 'degrees')),
  ].map((entry) => [entry.code, entry]),
);

/** Zone number, hemisphere of a UTM code of any family; undefined for another code. */
export function utmZoneOf(code: string): { zone: number; south: boolean; datum: string } | undefined {
  const family = utmFamilyOf(code);
  return family && { zone: numberOf(code) - family.base, south: family.south, datum: family.datum };
}

function numberOf(code: string): number {
  return Number(code.slice('EPSG:'.length));
}

function utmFamilyOf(code: string): UtmFamily | undefined {
  const n = numberOf(code);
  return UTM_FAMILIES.find((f) => n >= f.base + f.zones[0] && n <= f.base + f.zones[1]);
}

/** A definition on the ellipsoid of the global systems, which needs no shift: numbers only, so that nothing else gets in. */
const DEFINED =
  /^\+proj=((?:tmerc|lcc|laea|aea|sterea)(?: \+[a-z_]+[012]=-?\d+(?:\.\d+)?(?:e-?\d+)?)+) \+ellps=(GRS80|WGS84)$/;

/**
 * The entry of a code written `EPSG:n`, or of a definition such as `crsOfKeys` gives; undefined when the list does not hold the one or the
 * other stands on a datum of its own.
 */
export function crsEntry(code: string): CrsEntry | undefined {
  const fixed = FIXED.get(code);
  if (fixed !== undefined) return fixed;
  const [, projection, ellipsoid] = DEFINED.exec(code) ?? [];
  if (projection !== undefined && ellipsoid !== undefined) {
    const name = 'as its file defines it';
    return { code, name, use: 'reprojected', projection, ellipsoid, shift: '', area: [-180, -90, 180, 90] };
  }
  const family = utmFamilyOf(code);
  if (family === undefined) return undefined;
  const zone = numberOf(code) - family.base;
  const middle = zone * 6 - 183;
  return {
    code,
    name: `UTM zone ${zone}${family.south ? 'S' : 'N'} (${family.datum})`,
    use: 'ground',
    projection: `utm +zone=${zone}${family.south ? ' +south' : ''}`,
    ellipsoid: family.ellipsoid,
    shift: family.shift,
    // national grids use one zone far past its 6°; the series stays exact there
    area: [middle - UTM_WIDTH, family.south ? -80.5 : -1, middle + UTM_WIDTH, family.south ? 1 : 84.5],
  };
}

/** Every code of the list, for messages and for the test against an outside list. */
export function knownCodes(): string[] {
  const utm = UTM_FAMILIES.flatMap((f) =>
    Array.from({ length: f.zones[1] - f.zones[0] + 1 }, (_, i) => `EPSG:${f.base + f.zones[0] + i}`),
  );
  return [...FIXED.keys(), ...utm];
}
