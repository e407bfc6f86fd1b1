/**
 * A coordinate system that a GeoTIFF spells out in its keys instead of naming a code (OGC GeoTIFF 1.1, clause 7.5 and annex C), as a
 * definition `+proj=… +ellps=…`; null for one that is not spelt out in metres, degrees and a projection listed here.
 */
export function crsOfKeys(keys: Readonly<Record<string, unknown>>): string | null {
  const number = (name: string) => {
    const value = keys[name];
    return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
  };
  if (keys.GTModelTypeGeoKey !== 1) return null;
  const { ProjLinearUnitsGeoKey: unit = METRE, GeogAngularUnitsGeoKey: angle = DEGREE } = keys;
  if (unit !== METRE || angle !== DEGREE || (number('GeogPrimeMeridianLongGeoKey') ?? 0) !== 0) return null;
  const ellipsoid = ellipsoidOf(number);
  if (ellipsoid === null) return null;
  const zone = utmOf(number('ProjectionGeoKey'));
  if (zone !== null) return `+proj=tmerc ${zone} +ellps=${ellipsoid}`;
  const projection = PROJECTIONS.get(number('ProjCoordTransGeoKey') ?? 0);
  if (projection === undefined) return null;
  const [name, ...parameters] = projection;
  const parts: string[] = [];
  for (const parameter of parameters) {
    const value = KEYS_OF[parameter].map(number).find((v) => v !== undefined) ?? PLAIN[parameter];
    if (value === undefined) return null;
    parts.push(`+${parameter}=${value}`);
  }
  return `+proj=${name} ${parts.join(' ')} +ellps=${ellipsoid}`;
}

const METRE = 9001;
const DEGREE = 9102;

type Parameter = 'lat_0' | 'lon_0' | 'lat_1' | 'lat_2' | 'k_0' | 'x_0' | 'y_0';

/** Codes of ProjCoordTransGeoKey and what each needs. */
const PROJECTIONS = new Map<number, readonly [name: string, ...Parameter[]]>([
  [1, ['tmerc', 'lat_0', 'lon_0', 'k_0', 'x_0', 'y_0']],
  [8, ['lcc', 'lat_1', 'lat_2', 'lat_0', 'lon_0', 'x_0', 'y_0']],
  [10, ['laea', 'lat_0', 'lon_0', 'x_0', 'y_0']],
  [11, ['aea', 'lat_1', 'lat_2', 'lat_0', 'lon_0', 'x_0', 'y_0']],
  [16, ['sterea', 'lat_0', 'lon_0', 'k_0', 'x_0', 'y_0']],
]);

const KEYS_OF: Readonly<Record<Parameter, readonly string[]>> = {
  lat_0: ['ProjNatOriginLatGeoKey', 'ProjFalseOriginLatGeoKey', 'ProjCenterLatGeoKey'],
  lon_0: ['ProjNatOriginLongGeoKey', 'ProjFalseOriginLongGeoKey', 'ProjCenterLongGeoKey'],
  lat_1: ['ProjStdParallel1GeoKey'],
  lat_2: ['ProjStdParallel2GeoKey'],
  k_0: ['ProjScaleAtNatOriginGeoKey', 'ProjScaleAtCenterGeoKey'],
  x_0: ['ProjFalseEastingGeoKey', 'ProjFalseOriginEastingGeoKey'],
  y_0: ['ProjFalseNorthingGeoKey', 'ProjFalseOriginNorthingGeoKey'],
};

/** What a left-out parameter means; the origin and the parallels must be said. */
const PLAIN: Readonly<Partial<Record<Parameter, number>>> = { k_0: 1, x_0: 0, y_0: 0 };

/** Geographic systems and ellipsoids of the EPSG list and half axes in metres, by what proj calls the ellipsoid. */
const ELLIPSOIDS: readonly (readonly [
  name: string,
  systems: readonly number[],
  code: number,
  axis: number,
])[] = [
  ['WGS84', [4326], 7030, 0],
  // the two global ones differ by a tenth of a millimetre
  ['GRS80', [4258, 4269, 4283, 4167, 4171, 4617, 4937, 7844], 7019, 6_378_137],
  ['airy', [4277], 7001, 6_377_563.396],
  ['bessel', [4312, 4314, 4149, 4289], 7004, 6_377_397.155],
  ['intl', [4230], 7022, 6_378_388],
];

function ellipsoidOf(number: (name: string) => number | undefined): string | null {
  const system = number('GeographicTypeGeoKey') ?? -1;
  const code = number('GeogEllipsoidGeoKey');
  const axis = number('GeogSemiMajorAxisGeoKey');
  const flat = number('GeogInvFlatteningGeoKey') ?? 298.2572;
  if (axis === 6_378_137 && Math.abs(flat - 298.2572) > 1e-4) return null;
  const named = ELLIPSOIDS.find(([, systems, c, a]) => systems.includes(system) || c === code || a === axis);
  return named?.[0] ?? null;
}

/** UTM zones have projection codes of their own: 16001 to 16060 north, 16101 to 16160 south. */
function utmOf(code: number | undefined): string | null {
  if (code === undefined) return null;
  const zone = code - (code > 16100 ? 16100 : 16000);
  if (!(zone >= 1 && zone <= 60)) return null;
  const north = code > 16100 ? 10_000_000 : 0;
  return `+lat_0=0 +lon_0=${zone * 6 - 183} +k_0=0.9996 +x_0=500000 +y_0=${north}`;
}
