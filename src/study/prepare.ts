import { type Box as ClipBox, clipFeatures } from '../features/clip.ts';
import type { Feature } from '../features/feature.ts';
import { boxOf } from '../features/index-near.ts';
import { placesAsFeatures } from '../features/named-places.ts';
import { buildNetwork } from '../features/network.ts';
import type { Unzlib } from '../features/osm-pbf.ts';
import { type Raster, sample } from '../grid/raster.ts';
import type { DecodedGrid } from '../terrain/decoded.ts';
import type { Box } from '../terrain/mosaic.ts';
import { toGround } from '../terrain/to-ground.ts';
import { writeGeoTiff } from '../terrain/write-geotiff.ts';
import { type FeatureFile, joinFeatures, readFeatureFile } from './prepare-features.ts';
import { featuresText, placesText } from './prepare-files.ts';
import { chooseFirstTask, type FirstTask, firstTaskText } from './prepare-first-task.ts';
import { lackingNeeds, type Need } from './prepare-lacking.ts';
import { landformFeatures } from './prepare-landforms.ts';

/** Files as they were found. */
export interface PrepareSources {
  /** Decoded elevation, any number of tiles. */
  readonly grids: readonly DecodedGrid[];
  readonly features: readonly FeatureFile[];
  /** Table `property,value,kind` for GeoJSON of others. */
  readonly kindsTable: FeatureFile | null;
}

/** What the terrain is to be like. */
export interface PrepareWishes {
  readonly name: string;
  /** A projected CRS by its EPSG code; null follows the elevation. */
  readonly crs: string | null;
  /** Side of a cell in metres; null takes the elevation's own, fine ones brought to `FINE`. */
  readonly cell: number | null;
  /** Part of the ground to keep, in metres of the CRS that will be used; null keeps all. */
  readonly box: ((crs: string) => Box) | null;
  readonly mapDate: string | null;
  readonly licence: string | null;
  readonly attribution: string | null;
  /** Whether knolls, cols, spurs and re-entrants are read off the elevation. */
  readonly landforms: boolean;
  readonly unzlib: Unzlib;
}

export interface Prepared {
  readonly name: string;
  readonly elevation: Raster;
  readonly features: readonly Feature[];
  /** The features and the places that follow from them. */
  readonly places: readonly Feature[];
  readonly firstTask: FirstTask | null;
  readonly mapDate: string | null;
  readonly licence: string;
  readonly attribution: string;
  /** What was left out as of no kind that the engine knows, most frequent first. */
  readonly ignored: readonly { readonly what: string; readonly count: number }[];
  readonly lacking: readonly Need[];
  readonly notes: readonly string[];
}

/** Elevation finer than this is brought to it unless a cell is named, metres: finer brings nothing to a person on foot and costs much. */
export const FINE = 5;

const UNKNOWN_LICENCE = 'not stated: ask before a report from this data is shown to others';

/** A terrain from other people's files: heights on one grid, features of our kinds on it, and what is missing. Throws UserError. */
export function prepare(sources: PrepareSources, wishes: PrepareWishes): Prepared {
  // the heights first: they say where everything lies
  const { raster: elevation, notes } = groundOf(sources.grids, wishes);
  const box = boxOfRaster(elevation);

  // then whatever is mapped there
  const { crs } = elevation;
  const reading = {
    crs,
    box,
    mapDate: wishes.mapDate,
    kindsTable: sources.kindsTable,
    unzlib: wishes.unzlib,
  };
  const read = sources.features.map((file) => ({ file, ...readFeatureFile(file, reading) }));
  const joined = joinFeatures(read.map((r) => r.features));
  const sides = [box.west, box.south, box.east, box.north] as const;
  const mapped = clipFeatures(joined, sides);
  const outside = joined.filter((feature) => isOutside(feature, sides)).length;
  if (outside > 0) notes.push(`${outside} of ${joined.length} features lie outside and are left out.`);
  for (const { file, notes: said } of read) notes.push(...said.map((note) => `${file.name}: ${note}.`));

  // landforms where the map names none
  const shapes = wishes.landforms ? landformFeatures(elevation, mapped) : [];
  if (shapes.length > 0) notes.push(`${shapes.length} landforms are read off the elevation.`);
  const features = [...mapped, ...shapes];

  // and the places that follow from it, by which tasks can name things
  const heightAt = (east: number, north: number) => sample(elevation, east, north);
  const places = [...features, ...placesAsFeatures(buildNetwork(features, { heightAt }), features)];
  return {
    name: wishes.name,
    elevation,
    features,
    places,
    firstTask: chooseFirstTask(places, elevation),
    mapDate: wishes.mapDate,
    licence: wishes.licence ?? UNKNOWN_LICENCE,
    attribution: attributionOf(
      wishes,
      read.map((r) => r.attribution),
    ),
    ignored: summed(read.flatMap((r) => r.ignored)),
    lacking: lackingNeeds(mapped),
    notes: [...new Set(notes)],
  };
}

function groundOf(grids: readonly DecodedGrid[], wishes: PrepareWishes): { raster: Raster; notes: string[] } {
  const own = toGroundBox(grids, wishes, wishes.cell);
  const notes = grids.flatMap((grid) => grid.notes);
  if (wishes.cell !== null || own.raster.cell >= FINE) {
    return { raster: own.raster, notes: [...notes, ...own.notes] };
  }
  const finer = own.raster.cell;
  const coarse = toGroundBox(grids, wishes, FINE);
  const said = `The elevation has cells of ${finer} m; it is brought to ${FINE} m (name a cell to keep more).`;
  return { raster: coarse.raster, notes: [...notes, said, ...coarse.notes] };
}

function toGroundBox(grids: readonly DecodedGrid[], { crs, box }: PrepareWishes, cell: number | null) {
  const choice = { ...(crs === null ? {} : { crs }), ...(cell === null ? {} : { cell }) };
  if (box === null) return toGround(grids, choice);
  // a box in degrees needs the CRS, which the files may decide
  const known = crs ?? toGround([corner(grids[0]!)], {}).raster.crs;
  return toGround(grids, { ...choice, box: box(known) });
}

/** A few cells of a grid, enough to say what its CRS comes to. */
function corner(grid: DecodedGrid): DecodedGrid {
  const columns = Math.min(2, grid.columns);
  const rows = Math.min(2, grid.rows);
  const data = new Float32Array(columns * rows);
  const [c, r] = [Math.floor((grid.columns - columns) / 2), Math.floor((grid.rows - rows) / 2)];
  return {
    ...grid,
    columns,
    rows,
    data,
    west: grid.west + c * grid.cellEast,
    north: grid.north - r * grid.cellNorth,
  };
}

function boxOfRaster({ west, north, cell, columns, rows }: Raster): Box {
  return { west, north, east: west + columns * cell, south: north - rows * cell };
}

function isOutside({ geometry }: Feature, [west, south, east, north]: ClipBox): boolean {
  const [w, s, e, n] = boxOf(geometry);
  return e < west || w > east || n < south || s > north;
}

function attributionOf({ attribution }: PrepareWishes, read: readonly (string | null)[]): string {
  const said = [attribution ?? 'elevation: source not stated', ...read].filter((a) => a !== null);
  return [...new Set(said)].join('; ');
}

function summed(counts: Prepared['ignored']): { what: string; count: number }[] {
  const sums = new Map<string, number>();
  for (const { what, count } of counts) sums.set(what, (sums.get(what) ?? 0) + count);
  return [...sums]
    .map(([what, count]) => ({ what, count }))
    .sort((a, b) => b.count - a.count || (a.what < b.what ? -1 : 1));
}

/** The files of the terrain folder, by name. `deflate` makes a zlib stream. */
export function terrainFiles(
  prepared: Prepared,
  deflate: (bytes: Uint8Array) => Uint8Array,
): Map<string, string | Uint8Array> {
  const { name, elevation, features, places, firstTask, mapDate, licence, attribution } = prepared;
  const description = {
    version: 1,
    name,
    crs: elevation.crs,
    elevation: 'elevation.tif',
    ...(features.length === 0 ? {} : { features: 'features.geojson' }),
    mapDate,
    licence,
    attribution,
    invented: false,
  };
  const files = new Map<string, string | Uint8Array>();
  files.set('terrain.json', `${JSON.stringify(description, null, 2)}\n`);
  files.set('elevation.tif', writeGeoTiff(elevation, deflate));
  if (features.length > 0) files.set('features.geojson', featuresText(features, elevation.crs, attribution));
  files.set('places.csv', placesText(places));
  if (firstTask !== null) files.set('first.task.yaml', firstTaskText(firstTask, elevation));
  files.set('how-it-was-made.txt', saidText(prepared));
  return files;
}

/** What was done and what is missing, for the terminal and for a file beside the terrain. */
export function saidText(prepared: Prepared): string {
  const { name, elevation, features, ignored, lacking, notes } = prepared;
  const { columns, rows, cell, crs } = elevation;
  const kilometres = (n: number) => Math.round((n * cell) / 100) / 10;
  const lines = [
    `${name}: ${kilometres(columns)} × ${kilometres(rows)} km, cells of ${Math.round(cell * 100) / 100} m, ${crs}`,
    `${features.length} features: ${kindCounts(features)}`,
    ...notes.map((note) => `- ${note}`),
  ];
  if (ignored.length > 0) {
    const some = ignored.slice(0, 12).map(({ what, count }) => `${what} (${count})`);
    const more = ignored.length > 12 ? `, and ${ignored.length - 12} more sorts` : '';
    lines.push(`Left out, of no kind that is used here: ${some.join(', ')}${more}`);
  }
  if (lacking.length > 0) {
    lines.push(
      'Lacking on this ground:',
      ...lacking.map(({ name: what, without }) => `- no ${what}: ${without}`),
    );
  }
  return `${lines.join('\n')}\n`;
}

function kindCounts(features: readonly Feature[]): string {
  if (features.length === 0) return 'none';
  const counts = new Map<string, number>();
  for (const { kind } of features) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts]
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
    .map(([kind, n]) => `${n} ${kind}`)
    .join(', ');
}
