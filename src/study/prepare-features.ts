import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { itemsOf } from '../features/geojson-text.ts';
import { DOUBT_NAMES } from '../features/given-doubt.ts';
import { FEATURE_KINDS } from '../features/kinds.ts';
import { readKindsTable } from '../features/kinds-table.ts';
import { readOsmPbf, type Unzlib } from '../features/osm-pbf.ts';
import { type FeaturesRead, readFeatures } from '../features/read-geojson.ts';
import { featuresOfOsm, readOsm } from '../features/read-osm.ts';
import { readOwnCsv } from '../features/read-own-csv.ts';
import { parseGridReference } from '../terrain/grid-reference.ts';
import type { Box } from '../terrain/mosaic.ts';
import { fromLonLat, toLonLat } from '../terrain/projection.ts';

/** A file of map features, whatever is in it. */
export interface FeatureFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface FeatureWishes {
  /** CRS of the terrain. */
  readonly crs: string;
  /** The terrain's box in metres; an extract may be far larger. */
  readonly box: Box;
  readonly mapDate: string | null;
  /** Table `property,value,kind` for GeoJSON that is neither ours nor OpenStreetMap's. */
  readonly kindsTable: FeatureFile | null;
  readonly unzlib: Unzlib;
}

/** What a file turned out to be, by its content. */
export type FeatureForm = 'OSM PBF' | 'OSM XML' | 'GeoJSON' | 'kinds table' | 'own table';

/** The form of a file of features by its first bytes; null when it is of none. */
export function featureForm(bytes: Uint8Array): FeatureForm | null {
  const head = new TextDecoder().decode(bytes.subarray(0, 4000)).replace(/^\ufeff/, '');
  // a PBF begins with the length of a header that says what it is
  if (bytes[0] === 0 && bytes[1] === 0 && head.includes('OSMHeader')) return 'OSM PBF';
  const text = head.trimStart();
  if (text.startsWith('<')) return /<osm[\s>]/.test(text) ? 'OSM XML' : null;
  if (text.startsWith('{')) return 'GeoJSON';
  const header = text.split(/\r?\n/).find((line) => line.trim() !== '' && !line.startsWith('#')) ?? '';
  const columns = header
    .toLowerCase()
    .split(/[,;]/)
    .map((c) => c.trim().replace(/"/g, ''));
  if (columns.includes('property') && columns.includes('kind')) return 'kinds table';
  if (columns.includes('id') && columns.includes('kind')) return 'own table';
  return null;
}

/** Reads one file of features by what it holds. Throws UserError. */
export function readFeatureFile(file: FeatureFile, wishes: FeatureWishes): FeaturesRead {
  const { crs, kindsTable } = wishes;
  const options = {
    where: file.name,
    crs,
    fromLonLat: (lon: number, lat: number) => fromLonLat(crs, [lon, lat]),
    age: { mapDate: wishes.mapDate },
  };
  const form = featureForm(file.bytes);
  if (form === 'OSM PBF') return featuresOfOsm(readOsmPbf(file.bytes, pbfOptions(file, wishes)), options);
  const text = form === null ? '' : textOf(file);
  if (form === 'OSM XML') return readOsm(text, options);
  if (form === 'own table') {
    return readOwnCsv(text, { ...options, fromGrid: (grid) => parseGridReference(grid, crs) });
  }
  if (form === 'GeoJSON') {
    if (kindsTable !== null) {
      return readFeatures(text, { ...options, foreign: readKindsTable(textOf(kindsTable), kindsTable.name) });
    }
    return isOurs(text, file.name) ? readFeatures(text, options) : readOsm(text, options);
  }
  throw new UserError({
    what: 'this file holds neither elevation nor map features that are read',
    where: file.name,
    got: file.bytes.length === 0 ? 'an empty file' : `it begins with ${begins(file.bytes)}`,
    expected: 'GeoTIFF, ESRI ASCII, .hgt, OSM XML or PBF, GeoJSON, or a table with id and kind',
  });
}

function pbfOptions(file: FeatureFile, { crs, box, unzlib }: FeatureWishes) {
  const corners = [
    [box.west, box.south],
    [box.west, box.north],
    [box.east, box.south],
    [box.east, box.north],
  ].map(([x, y]) => toLonLat(crs, [x!, y!]));
  const lons = corners.map((c) => c[0]);
  const lats = corners.map((c) => c[1]);
  // the sides of the box are bent in degrees
  const spare = 0.02;
  return {
    where: file.name,
    unzlib,
    box: [
      Math.min(...lons) - spare,
      Math.min(...lats) - spare,
      Math.max(...lons) + spare,
      Math.max(...lats) + spare,
    ] as const,
  };
}

function textOf({ bytes, name }: FeatureFile): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new UserError({
      what: 'this file is not text',
      where: name,
      got: 'bytes that are not UTF-8',
      expected: 'UTF-8',
    });
  }
}

function begins(bytes: Uint8Array): string {
  return Array.from(bytes.subarray(0, 4), (b) => b.toString(16).padStart(2, '0')).join(' ');
}

/** GeoJSON made for this program: most of its first features have a kind of ours. */
function isOurs(text: string, where: string): boolean {
  const some = itemsOf(text, where).items.slice(0, 200);
  const ours = some.filter((i) => (FEATURE_KINDS as readonly unknown[]).includes(i.properties.kind));
  const doubts = some.some((i) => DOUBT_NAMES.some((name) => i.properties[name] !== undefined));
  return ours.length > 0 && (ours.length * 2 > some.length || doubts);
}

/**
 * The features of several files under ids that are all different: the same element twice (extracts that overlap) counts
 * once, another thing of the same id gets `~2`.
 */
export function joinFeatures(lists: readonly (readonly Feature[])[]): Feature[] {
  const byId = new Map<string, Feature>();
  for (const list of lists)
    for (const feature of list) {
      let id = feature.id;
      for (let n = 2; byId.has(id) && !isSame(byId.get(id)!, feature); n++) id = `${feature.id}~${n}`;
      if (!byId.has(id)) byId.set(id, id === feature.id ? feature : { ...feature, id });
    }
  return [...byId.values()];
}

function isSame(a: Feature, b: Feature): boolean {
  return a.kind === b.kind && JSON.stringify(a.geometry) === JSON.stringify(b.geometry);
}
