import proj4 from 'proj4';
import { RADIANS } from '../math/bearing.ts';
import { crsEntry, knownCodes } from './epsg.ts';
import { plainDefinition } from './projection.ts';

/** Words by which a text tells apart systems that project alike, and the base of their UTM codes. */
const DATUM_WORDS: readonly (readonly [RegExp, (code: number) => boolean])[] = [
  [/ETRS|European_Terrestrial/i, (n) => n >= 25828 && n <= 25838],
  [/NAD_?83|North_American_1983|North American Datum 1983/i, (n) => n >= 26901 && n <= 26923],
  [/GDA/i, (n) => n >= 28348 && n <= 28358],
  [/WGS/i, (n) => n >= 32601 && n <= 32760],
  [/TM65/i, (n) => n === 29902],
];

/**
 * The code of a coordinate system described by a definition (`crsOfKeys`) or in WKT, as in a `.prj` file or a GeoTIFF's citation: by the EPSG number at its end, or by
 * projecting two places with it and with every system of the list on the same ellipsoid. Null when none agrees within a metre.
 */
export function crsFromText(text: string): string | null {
  if (text.startsWith('+proj=')) return crsFromDefinition(text);
  const at = text.search(/(PROJCS|PROJCRS|GEOGCS|GEOGCRS)\s*\[/);
  if (at === -1) return null;
  const wkt = text.slice(at, at + 4000).trim();
  const named = /(?:AUTHORITY\["EPSG","(\d{4,5})"\]|ID\["EPSG",(\d{4,5})\])\s*\]$/.exec(wkt);
  const code = `EPSG:${named?.[1] ?? named?.[2]}`;
  if (named !== null && crsEntry(code) !== undefined) return code;
  let described: Projector;
  try {
    described = new proj4.Proj(wkt) as unknown as Projector;
  } catch {
    return null;
  }
  if (/^GEOG/.test(wkt)) return /WGS_?(19)?84/i.test(wkt) ? 'EPSG:4326' : null;
  const agreeing = knownCodes().filter((known) => agrees(described, known));
  for (const [words, fits] of DATUM_WORDS) {
    const best = words.test(wkt) && agreeing.find((known) => fits(Number(known.slice(5))));
    if (best) return best;
  }
  return agreeing[0] ?? null;
}

/** A system of the list that projects alike, else the definition itself where it can be built. */
function crsFromDefinition(text: string): string | null {
  try {
    const described = new proj4.Proj(text) as unknown as Projector;
    const listed = knownCodes().find((known) => agrees(described, known));
    return listed ?? (crsEntry(text) === undefined ? null : text);
  } catch {
    return null;
  }
}

/** The part of proj4's projection object used here; angles in radians. */
interface Projector {
  readonly a: number;
  readonly to_meter?: number;
  forward(point: { x: number; y: number }): { x: number; y: number };
}

function agrees(described: Projector, known: string): boolean {
  const entry = crsEntry(known)!;
  if (entry.use !== 'ground') return false;
  const listed = new proj4.Proj(plainDefinition(entry)) as unknown as Projector;
  if (Math.abs(described.a - listed.a) > 1 || (described.to_meter ?? 1) !== 1) return false;
  const [west, south, east, north] = entry.area;
  for (const share of [0.4, 0.65]) {
    const x = (west + (east - west) * share) * RADIANS;
    const y = (south + (north - south) * share) * RADIANS;
    try {
      const a = described.forward({ x, y });
      const b = listed.forward({ x, y });
      if (!(Math.abs(a.x - b.x) < 1 && Math.abs(a.y - b.y) < 1)) return false;
    } catch {
      return false;
    }
  }
  return true;
}
