import type { MappedGround } from '../cost/mapped-ground.ts';
import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import type { Errand, PlaceName } from './drawn.ts';
import { heightAt, nearestOf } from './map-line.ts';

/** Where a named place is, and the mapped feature that tells the party it is there. */
export interface Place {
  readonly at: Point;
  readonly feature: Feature | null;
}

/** Turns a longitude and latitude or a grid reference into metres of the terrain's CRS; given by whoever knows the projection. */
export type Locate = (name: { lonLat: readonly [number, number] } | { grid: string }) => Point;

/** Everything the reading of one drawn leg looks things up in. */
export interface Lookup {
  readonly errand: Errand;
  readonly ground: MappedGround;
  readonly locate: Locate | undefined;
}

/** The feature of an id, or one message that names the nearest known id. */
export function featureOf(ground: MappedGround, id: string, where: string): Feature {
  const feature = ground.byId.get(id);
  if (feature) return feature;
  throw new UserError({
    what: 'no such feature on this terrain',
    where,
    got: `"${id}"${suggestion(id, ground.byId.keys())}`,
    expected: 'the id of a feature in features.geojson',
  });
}

/** A place on the map. Of a line or an area, the point nearest to `near`. */
export function placeOf(name: PlaceName, near: Point, look: Lookup, where: string): Place {
  const { errand, ground } = look;
  if (name === 'start') return { at: errand.start.at, feature: errand.start.feature };
  if (name === 'target') return { at: errand.target.at, feature: errand.target.feature };
  if ('feature' in name) {
    if (name.feature === errand.target.feature.id)
      return { at: errand.target.at, feature: errand.target.feature };
    const feature = featureOf(ground, name.feature, where);
    return { at: nearestOf(feature, near), feature };
  }
  const at = 'at' in name ? snapPoint(name.at) : located(name, look, where);
  if (!Number.isFinite(heightAt(ground, at))) {
    throw new UserError({
      what: 'this place is off the map or on ground of unknown height',
      where,
      got: `[${at[0]}, ${at[1]}]`,
      expected: boundsOf(ground),
    });
  }
  return { at, feature: null };
}

function located(
  name: { lonLat: readonly [number, number] } | { grid: string },
  look: Lookup,
  where: string,
): Point {
  if (look.locate) return look.locate(name);
  throw new UserError({
    what: 'places by longitude and latitude or grid reference cannot be used here',
    where,
    got: JSON.stringify(name),
    expected: '{ at: [easting, northing] } or { feature: id }',
  });
}

function boundsOf(ground: MappedGround): string {
  const { west, north, cell, columns, rows } = ground.terrain.elevation;
  return `east ${west} to ${west + cell * columns}, north ${north - cell * rows} to ${north}`;
}
