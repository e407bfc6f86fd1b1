import { UserError } from '../../src/door/user-error.ts';
import type { Point } from '../../src/math/plane.ts';
import { toLonLat } from '../../src/terrain/projection.ts';
import type { TerrainDescription } from '../../src/terrain/read-terrain.ts';
import type { GroundFiles } from './messages.ts';
import { type Folder, givenBy, type Own } from './work.ts';

const NAME = 'features.geojson';

/** What `terrain.json` of a folder says that was checked when it was opened. */
export function describedBy({ terrainJson }: Folder): Partial<TerrainDescription> {
  return JSON.parse(terrainJson) as Partial<TerrainDescription>;
}

/** The folder with what the user drew among its features: what is calculated with, and what is saved. */
export function joinedFolder(folder: Folder, own: readonly Own[], crs: string): GroundFiles {
  if (own.length === 0) return folder;
  const description = describedBy(folder);
  const inMetres = folder.features === null || description.featuresCrs !== undefined;
  const place = (p: Point): readonly number[] => (inMetres ? p : degrees(crs, p));
  const added = own.map((o) => ({
    type: 'Feature',
    properties: { id: o.id, kind: o.kind, ...(o.name === '' ? {} : { name: o.name }), ...givenBy(o) },
    geometry: { type: o.shape, coordinates: coordinates(o, place) },
  }));
  if (folder.features === null) {
    const terrainJson = JSON.stringify(
      { ...JSON.parse(folder.terrainJson), features: NAME, featuresCrs: crs },
      null,
      2,
    );
    const features = JSON.stringify({ type: 'FeatureCollection', features: added });
    return { ...folder, terrainJson, features };
  }
  return { ...folder, features: joined(folder.features, added) };
}

function coordinates({ shape, points, holes = [] }: Own, place: (p: Point) => readonly number[]): unknown {
  const all = points.map(place);
  if (shape === 'Point') return all[0];
  if (shape === 'LineString') return all;
  return [all, ...holes.map((ring) => ring.map(place))].map((ring) => [...ring, ring[0]]);
}

function degrees(crs: string, at: Point): readonly number[] {
  return toLonLat(crs, at).map((d) => Math.round(d * 1e8) / 1e8);
}

function joined(features: string, added: readonly unknown[]): string {
  const collection = JSON.parse(features) as { features?: unknown };
  if (!Array.isArray(collection.features)) {
    throw new UserError({ what: 'the features are no collection, so nothing can be added to them' });
  }
  return JSON.stringify({ ...collection, features: [...collection.features, ...added] });
}

/** An id that no feature has yet: of the name where there is one, else of the kind. */
export function freshId(kind: string, name: string, taken: ReadonlySet<string>): string {
  const plain = (name === '' ? kind : name)
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
  const stem = plain === '' ? kind : plain;
  for (let n = 1; ; n++) {
    const id = n === 1 ? stem : `${stem}-${n}`;
    if (!taken.has(id)) return id;
  }
}
