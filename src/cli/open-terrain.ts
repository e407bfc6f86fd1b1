import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { readFeatures } from '../features/read-geojson.ts';
import type { Georeference } from '../grid/raster.ts';
import { fromLonLat } from '../terrain/projection.ts';
import {
  openTerrain as openHeights,
  readDescription,
  type TerrainDescription,
} from '../terrain/read-terrain.ts';
import { deriveRelief } from '../terrain/relief.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import { cached, keyOf } from './node/cache.ts';
import { decodeInChild } from './node/decode-child.ts';
import { beside, readBytes, readText } from './node/files.ts';
import { VERSION } from './version.ts';

/** A terrain folder, read. */
export interface OpenedTerrain {
  readonly terrain: Terrain;
  readonly features: readonly Feature[];
  readonly relief: Relief;
}

/** Below this a cache costs more than it saves: bytes of elevation to read, and cells to derive from. */
const WORTH_BYTES = 4_000_000;
const WORTH_CELLS = 1_000_000;

/** Reads a terrain folder. What takes long to prepare is kept on disk by its content. Throws UserError. */
export async function openTerrain(folder: string): Promise<OpenedTerrain> {
  const path = beside(`${folder}/x`, 'terrain.json');
  const terrainJson = await readText(path, 'terrain description');
  const description = readDescription(terrainJson, path);
  const { terrain, key } = await heightsOf(folder, terrainJson, description);
  return {
    terrain,
    features: await featuresOf(folder, description, terrain),
    relief: await reliefOf(terrain, key),
  };
}

async function heightsOf(folder: string, terrainJson: string, description: TerrainDescription) {
  const names = [description.elevation].flat();
  const texts = names.filter((n) => /\.asc$/i.test(n)).map((n) => n.replace(/\.[^./]*$/, '.prj'));
  const files = new Map<string, Uint8Array>();
  for (const name of names) files.set(name, await readBytes(beside(`${folder}/x`, name), 'elevation file'));
  // a missing .prj is no fault: the description may name the coordinate system
  for (const name of texts) {
    const bytes = await readBytes(beside(`${folder}/x`, name), 'coordinate system').catch(() => null);
    if (bytes !== null) files.set(name, bytes);
  }
  const read = () =>
    openHeights({
      folderName: folder,
      terrainJson,
      // the folder may be a stranger's
      decode: (bytes, name, limits) => decodeInChild(bytes, name, limits),
      readBytes: (name) => {
        const bytes = files.get(name);
        if (bytes === undefined)
          throw new UserError({ what: 'there is no such file', where: `${folder}/${name}` });
        return Promise.resolve(bytes);
      },
    });
  const bytes = [...files.values()].reduce((sum, b) => sum + b.length, 0);
  const { crs = '', cellMetres = 0 } = description;
  const key = keyOf(VERSION, 'heights', JSON.stringify([crs, cellMetres, names]), ...files.values());
  if (bytes < WORTH_BYTES && names.length === 1 && cellMetres === 0) return { terrain: await read(), key };

  const { arrays, facts } = await cached(key, async () => {
    const { elevation, notes } = await read();
    const { data, ...frame } = elevation;
    return { arrays: { heights: data }, facts: { frame: frame as Georeference, notes } };
  });
  const { name, mapDate, licence, attribution, invented } = description;
  const terrain: Terrain = {
    name,
    crs: facts.frame.crs,
    elevation: { ...facts.frame, data: arrays.heights! },
    mapDate: mapDate ?? null,
    licence,
    attribution,
    invented: invented ?? false,
    notes: facts.notes,
  };
  return { terrain, key };
}

async function reliefOf({ elevation }: Terrain, key: string): Promise<Relief> {
  if (elevation.data.length < WORTH_CELLS) return deriveRelief(elevation);
  const { arrays } = await cached(keyOf(VERSION, 'relief', key), () => {
    const { eastward, northward, flow, wetness } = deriveRelief(elevation);
    return {
      arrays: { eastward: eastward.data, northward: northward.data, flow: flow.data, wetness: wetness.data },
      facts: null,
    };
  });
  const raster = (name: string) => ({ ...elevation, data: arrays[name]! });
  return {
    eastward: raster('eastward'),
    northward: raster('northward'),
    flow: raster('flow'),
    wetness: raster('wetness'),
  };
}

async function featuresOf(
  folder: string,
  { features: name, featuresCrs }: TerrainDescription,
  { crs, mapDate }: Terrain,
): Promise<readonly Feature[]> {
  if (name === undefined) return [];
  const where = beside(`${folder}/x`, name);
  if (featuresCrs !== undefined && featuresCrs !== crs) {
    throw new UserError({
      what: 'featuresCrs of terrain.json is not the coordinate system of the terrain',
      where: `${folder}/terrain.json`,
      got: featuresCrs,
      expected: `${crs}, or no featuresCrs for longitude and latitude`,
    });
  }
  const { features } = readFeatures(await readText(where, 'feature file'), {
    crs,
    where,
    fromLonLat: (lon, lat) => fromLonLat(crs, [lon, lat]),
    featuresInCrs: featuresCrs !== undefined,
    age: { mapDate },
  });
  return features;
}
