import { readDocument } from '../door/document.ts';
import * as s from '../door/shapes.ts';
import { UserError } from '../door/user-error.ts';
import { checkVersion } from '../door/versions.ts';
import type { Feature } from '../features/feature.ts';
import { readFeatures } from '../features/read-geojson.ts';
import { decodeHeights } from '../terrain/decode-heights.ts';
import { fromLonLat } from '../terrain/projection.ts';
import type { Terrain } from '../terrain/terrain.ts';
import { beside, readBytes, readText } from './node/files.ts';

const TERRAIN_SHAPE = s.table({
  version: s.whole({ min: 1, max: 1_000_000 }),
  name: s.text(),
  crs: s.text(),
  elevation: s.text({ max: 1000 }),
  features: s.maybe(s.text({ max: 1000 })),
  featuresCrs: s.maybe(s.text()),
  mapDate: s.maybe(s.orNone(s.isoDate())),
  licence: s.text({ max: 2000 }),
  attribution: s.text({ max: 2000 }),
  invented: s.maybe(s.flag()),
});

export async function openTerrain(
  folder: string,
): Promise<{ terrain: Terrain; features: readonly Feature[] }> {
  const path = beside(`${folder}/x`, 'terrain.json');
  const document = readDocument(await readText(path, 'terrain description'), path, TERRAIN_SHAPE);
  const { value } = document;
  checkVersion('terrain', value.version, [1], path);
  const file = beside(path, value.elevation);
  const grid = await decodeHeights(await readBytes(file, 'elevation file'), file);
  if (Math.abs(grid.cellEast - grid.cellNorth) > 1e-9)
    throw new UserError({ what: 'not square', where: file });
  const { columns, rows, data, west, north } = grid;
  const terrain: Terrain = {
    name: value.name,
    crs: value.crs,
    elevation: { crs: value.crs, west, north, cell: grid.cellEast, columns, rows, data },
    mapDate: value.mapDate ?? null,
    licence: value.licence,
    attribution: value.attribution,
    invented: value.invented ?? false,
    notes: grid.notes,
  };
  if (value.features === undefined) return { terrain, features: [] };
  const where = beside(path, value.features);
  const { features } = readFeatures(await readText(where, 'feature file'), {
    crs: value.crs,
    where,
    fromLonLat: (lon, lat) => fromLonLat(value.crs, [lon, lat]),
    featuresInCrs: value.featuresCrs === value.crs,
    age: { mapDate: terrain.mapDate },
  });
  return { terrain, features };
}
