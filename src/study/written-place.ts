import { suggestion } from '../door/did-you-mean.ts';
import { quoted } from '../door/quoted.ts';
import type { Path } from '../door/yaml.ts';
import { contains, placeOf } from '../features/areas.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { placesAsFeatures, type StatedDoubts } from '../features/named-places.ts';
import { buildNetwork } from '../features/network.ts';
import { cellAt, sample } from '../grid/raster.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import { parseGridReference } from '../terrain/grid-reference.ts';
import { fromLonLat } from '../terrain/projection.ts';
import type { Terrain } from '../terrain/terrain.ts';
import type { TaskDocument } from './read-task.ts';

/** A place in one of the ways a person writes it; the door has seen to it that exactly one is there. */
export interface WrittenPlace {
  readonly feature?: string;
  readonly at?: readonly [number, number];
  readonly lonLat?: readonly [number, number];
  readonly grid?: string;
}

/** Finds what a task names on its terrain, or complains with line and column. */
export interface Gazetteer {
  feature(path: Path, id: string): Feature;
  /** A place on the map, by coordinates of some kind; on the raster and on known ground. */
  point(path: Path, place: WrittenPlace): Point;
  /** Start or target: a point, a small area, or a place in the open; not inside a barrier. */
  endOf(path: Path, place: WrittenPlace): { readonly at: Point; readonly feature: Feature | null };
  /** The feature with this id, which must be something to follow or to meet: a line or the edge of an area. */
  line(path: Path, id: string): Feature;
}

/** Areas that nobody walks into. */
const BARRIERS: readonly FeatureKind[] = ['lake', 'out-of-bounds'];

export function gazetteerOf(
  document: TaskDocument,
  terrain: Terrain,
  features: readonly Feature[],
  stated: StatedDoubts,
): Gazetteer {
  const byId = new Map(features.map((feature) => [feature.id, feature]));
  let derived: ReadonlyMap<string, Feature> | null = null;
  const barriers = features.filter((f) => BARRIERS.includes(f.kind) && f.geometry.type === 'area');

  function feature(path: Path, id: string): Feature {
    const mapped = byId.get(id);
    if (mapped !== undefined) return mapped;
    derived ??= placesOf(terrain, features, stated);
    const place = derived.get(id);
    if (place !== undefined) return place;
    throw document.problem(path, unknownFeature(id, [...byId.keys(), ...derived.keys()]));
  }

  function point(path: Path, place: WrittenPlace): Point {
    const key = place.at ? 'at' : place.lonLat ? 'lonLat' : 'grid';
    const here = [...path, key];
    const at = document.within(here, () => snapPoint(metresOf(place, terrain.crs)));
    refuseOffMap(here, at, quotedPlace(place));
    return at;
  }

  function refuseOffMap(path: Path, at: Point, got: string): void {
    const grid = terrain.elevation;
    const cell = cellAt(grid, at[0], at[1]);
    if (cell < 0) {
      throw document.problem(path, {
        what: 'this place is off the map',
        got,
        expected:
          `easting ${grid.west} to ${grid.west + grid.columns * grid.cell}, ` +
          `northing ${grid.north - grid.rows * grid.cell} to ${grid.north}`,
      });
    }
    if (Number.isNaN(grid.data[cell])) {
      throw document.problem(path, { what: 'the height of this place is not known (nodata)', got });
    }
  }

  function endOf(path: Path, place: WrittenPlace) {
    const found = place.feature === undefined ? null : feature([...path, 'feature'], place.feature);
    if (found?.geometry.type === 'line') {
      throw document.problem([...path, 'feature'], {
        what: 'a line is too long to be a place',
        got: `${found.id}, a ${found.kind}`,
        expected: 'a point or a small area',
      });
    }
    const at = found === null ? point(path, place) : placeOf(found);
    if (found !== null) refuseOffMap([...path, 'feature'], at, found.id);
    const barrier = barriers.find(
      (b) => b !== found && b.geometry.type === 'area' && contains(b.geometry.rings, at),
    );
    if (barrier !== undefined) {
      throw document.problem(path, {
        what: 'this place is inside a barrier',
        got: `a place in ${barrier.id}, a ${barrier.kind}`,
        expected: 'a place that can be walked to',
      });
    }
    return { at, feature: found };
  }

  function line(path: Path, id: string): Feature {
    const found = feature(path, id);
    if (found.geometry.type !== 'point') return found;
    throw document.problem(path, {
      what: 'a point cannot be followed or aimed off on',
      got: `${id}, a ${found.kind}`,
      expected: 'the id of a line or an area',
    });
  }

  return { feature, point, endOf, line };
}

/** Junctions, stream ends, corners and the like of a terrain's lines, which have ids but stand in no file. */
function placesOf(
  terrain: Terrain,
  features: readonly Feature[],
  stated: StatedDoubts,
): ReadonlyMap<string, Feature> {
  const network = buildNetwork(features, {
    heightAt: (east, north) => sample(terrain.elevation, east, north),
  });
  return new Map(placesAsFeatures(network, features, stated).map((feature) => [feature.id, feature]));
}

/** The complaint about an id that no feature of the terrain has. */
function unknownFeature(id: string, names: readonly string[]) {
  const some = names.slice(0, 5).join(', ');
  const expected =
    names.length === 0 ? 'a terrain with features' : `an id of the terrain's features, as ${some}`;
  return {
    what: `the terrain has no such feature${suggestion(id, names)}`,
    got: quoted(id),
    expected,
  };
}

function metresOf(place: WrittenPlace, crs: string): Point {
  if (place.at !== undefined) return place.at;
  if (place.lonLat !== undefined) return fromLonLat(crs, place.lonLat);
  return parseGridReference(place.grid ?? '', crs);
}

function quotedPlace(place: WrittenPlace): string {
  if (place.grid !== undefined) return quoted(place.grid);
  return (place.at ?? place.lonLat ?? []).join(', ');
}
