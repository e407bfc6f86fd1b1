import { UserError } from '../../../src/door/user-error.ts';
import type { Feature } from '../../../src/features/feature.ts';
import { readFeatures } from '../../../src/features/read-geojson.ts';
import { fromLonLat } from '../../../src/terrain/projection.ts';
import { openTerrain, readDescription } from '../../../src/terrain/read-terrain.ts';
import { deriveRelief } from '../../../src/terrain/relief.ts';
import type { Relief, Terrain } from '../../../src/terrain/terrain.ts';
import type { GroundFiles } from '../messages.ts';

/** A terrain as its files have it. */
export interface ReadGround {
  readonly terrain: Terrain;
  readonly features: readonly Feature[];
}

export interface OpenedGround extends ReadGround {
  readonly relief: Relief;
}

/** What a page still holds and draws on at ease: bytes of a file, cells of a raster. */
const MOST_BYTES = 80_000_000;
const MOST_CELLS = 16_000_000;

/** A terrain from its files in memory, ready to be planned on. Throws UserError. */
export async function openGround(files: GroundFiles): Promise<OpenedGround> {
  const read = await readGround(files);
  return { ...read, relief: deriveRelief(read.terrain.elevation) };
}

/** A terrain from its files in memory. Throws UserError. */
export async function readGround(files: GroundFiles): Promise<ReadGround> {
  const bytes = new Map(files.files.map((f) => [f.name, f.bytes]));
  const terrain = await openTerrain({
    folderName: 'terrain',
    terrainJson: files.terrainJson,
    limits: { bytes: MOST_BYTES, cells: MOST_CELLS },
    readBytes: async (name) => {
      const found = bytes.get(name);
      if (found === undefined)
        throw new UserError({ what: 'there is no such file', where: `terrain/${name}` });
      return found;
    },
  });
  const { featuresCrs } = readDescription(files.terrainJson, 'terrain/terrain.json');
  const features =
    files.features === null
      ? []
      : readFeatures(files.features, {
          crs: terrain.crs,
          where: 'terrain/features.geojson',
          fromLonLat: (lon, lat) => fromLonLat(terrain.crs, [lon, lat]),
          featuresInCrs: featuresCrs !== undefined,
          age: { mapDate: terrain.mapDate },
        }).features;
  return { terrain, features };
}
