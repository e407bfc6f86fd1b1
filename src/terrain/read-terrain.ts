import { readDocument } from '../door/document.ts';
import * as s from '../door/shapes.ts';
import { UserError } from '../door/user-error.ts';
import { checkVersion } from '../door/versions.ts';
import { decodeHeights } from './decode-heights.ts';
import { DECODE_LIMITS, type DecodedGrid, type DecodeLimits } from './decoded.ts';
import { groundCrs } from './projection.ts';
import type { Terrain } from './terrain.ts';
import { toGround } from './to-ground.ts';

const FILE = s.text({ max: 1000 });

/** `terrain.json` of a terrain folder. */
export const TERRAIN_SHAPE = s.table({
  version: s.whole({ min: 1, max: 1_000_000 }),
  name: s.text(),
  crs: s.maybe(
    s.about(s.text({ max: 40 }), 'projected EPSG code; may be left out where the elevation file has one'),
  ),
  elevation: s.either('a file name or a list of them', FILE, s.list(FILE, { min: 1, max: 400 })),
  cellMetres: s.maybe(s.number({ min: 0.1, max: 1000, unit: 'metres' })),
  features: s.maybe(FILE),
  featuresCrs: s.maybe(s.text({ max: 40 })),
  mapDate: s.maybe(s.orNone(s.isoDate())),
  licence: s.text({ max: 2000 }),
  attribution: s.text({ max: 2000 }),
  invented: s.maybe(s.flag()),
});

export type TerrainDescription = s.Infer<typeof TERRAIN_SHAPE>;

export interface TerrainFiles {
  /** Said in messages. */
  readonly folderName: string;
  /** Text of the folder's `terrain.json`. */
  readonly terrainJson: string;
  /** Bytes of a file of the folder by its relative name; throws when there is none. */
  readonly readBytes: (name: string) => Promise<Uint8Array>;
  /** Decodes a file; in this process when left out. A program that opens files of strangers gives a child process. */
  readonly decode?: (bytes: Uint8Array, name: string, limits: DecodeLimits) => Promise<DecodedGrid>;
  readonly limits?: DecodeLimits;
}

/** Reads `terrain.json`. Throws `UserError` with line and column. */
export function readDescription(terrainJson: string, where: string): TerrainDescription {
  const { value } = readDocument(terrainJson, where, TERRAIN_SHAPE);
  checkVersion('terrain', value.version, [1], where);
  for (const name of [value.elevation, value.features ?? []].flat()) checkName(name, where);
  return value;
}

/**
 * Opens a terrain folder: heights in metres on square cells of a projected CRS. Several tiles are joined, degrees are reprojected to
 * the named CRS or to the UTM zone of their middle, `cellMetres` resamples; `notes` say what was done. Throws `UserError`.
 */
export async function openTerrain(files: TerrainFiles): Promise<Terrain> {
  const where = `${files.folderName}/terrain.json`;
  const description = readDescription(files.terrainJson, where);
  const { crs, cellMetres } = description;
  if (crs !== undefined) within(where, () => groundCrs(crs));
  const limits = files.limits ?? DECODE_LIMITS;
  const names = [description.elevation].flat();
  const grids: DecodedGrid[] = [];
  let cells = 0;
  for (const name of names) {
    const grid = await readGrid(files, name, limits);
    cells += grid.data.length;
    if (cells > limits.cells)
      throw new UserError({
        what: 'the elevation tiles together are too large',
        where,
        got: `more than ${cells - 1} cells`,
        expected: `at most ${limits.cells}: \`prepare\` cuts them to a box`,
      });
    grids.push(grid);
  }
  const { raster, notes } = within(names.length === 1 ? `${files.folderName}/${names[0]}` : where, () =>
    toGround(grids, {
      ...(crs === undefined ? {} : { crs }),
      ...(cellMetres === undefined ? {} : { cell: cellMetres }),
      limits,
    }),
  );
  return {
    name: description.name,
    crs: raster.crs,
    elevation: raster,
    mapDate: description.mapDate ?? null,
    licence: description.licence,
    attribution: description.attribution,
    invented: description.invented ?? false,
    notes: [...new Set([...grids.flatMap((grid) => grid.notes), ...notes])],
  };
}

async function readGrid(files: TerrainFiles, name: string, limits: DecodeLimits): Promise<DecodedGrid> {
  const where = `${files.folderName}/${name}`;
  const bytes = await files.readBytes(name);
  const decode = files.decode ?? decodeHeights;
  let grid: DecodedGrid;
  try {
    grid = await decode(bytes, name, limits);
  } catch (error) {
    throw placed(error, where);
  }
  if (grid.format !== 'ESRI ASCII') return grid;
  // an ASCII grid may have its CRS in a text beside it
  try {
    const text = new TextDecoder().decode(
      (await files.readBytes(name.replace(/\.[^./]*$/, '.prj'))).subarray(0, 8000),
    );
    return { ...grid, crsText: text };
  } catch {
    return grid;
  }
}

function checkName(name: string, where: string): void {
  const parts = name.split(/[/\\]/);
  if (parts.includes('..') || name.includes('\0') || /^([/\\]|[A-Za-z]:)/.test(name))
    throw new UserError({
      what: 'a file outside the terrain folder is named',
      where,
      got: JSON.stringify(name.slice(0, 80)),
      expected: 'a name inside the folder',
    });
}

function within<T>(where: string, action: () => T): T {
  try {
    return action();
  } catch (error) {
    throw placed(error, where);
  }
}

function placed(error: unknown, where: string): unknown {
  if (!(error instanceof UserError) || error.where !== undefined) return error;
  const { what, got, expected } = error;
  return new UserError({
    what,
    where,
    ...(got === undefined ? {} : { got }),
    ...(expected === undefined ? {} : { expected }),
  });
}
