import type { MappedGround } from '../cost/mapped-ground.ts';
import { boxOf } from '../features/index-near.ts';
import type { Cells, Raster } from '../grid/raster.ts';
import { distance } from '../math/plane.ts';
import type { Errand } from './drawn.ts';

/** Ground looked at beside the straight line from the start to the target: metres, and a share of its length. */
const BESIDE = 1500;
const BESIDE_SHARE = 0.6;

/**
 * The part of the map on which routes are sought: the box of start and target with a wide border. What lies outside is no
 * sensible detour, and a country-wide map costs no more than a local one. The whole ground where that is hardly larger.
 */
export function searchGround(ground: MappedGround, errand: Errand): MappedGround {
  const { elevation } = ground.terrain;
  const { west, north, cell, columns, rows } = elevation;
  const a = errand.start.at;
  const b = errand.target.at;
  const border = BESIDE + BESIDE_SHARE * distance(a, b);
  const first = Math.max(0, Math.floor((Math.min(a[0], b[0]) - border - west) / cell));
  const last = Math.min(columns, Math.ceil((Math.max(a[0], b[0]) + border - west) / cell));
  const top = Math.max(0, Math.floor((north - Math.max(a[1], b[1]) - border) / cell));
  const foot = Math.min(rows, Math.ceil((north - Math.min(a[1], b[1]) + border) / cell));
  if ((last - first) * (foot - top) > 0.8 * columns * rows) return ground;
  if (last - first < 2 || foot - top < 2) return ground;
  const cut = <T extends Cells>(raster: Raster<T>) => cutOut(raster, first, top, last - first, foot - top);
  const box = [west + first * cell, north - foot * cell, west + last * cell, north - top * cell] as const;
  const features = ground.features.filter((f) => {
    const [w, s, e, n] = boxOf(f.geometry);
    return w <= box[2] && e >= box[0] && s <= box[3] && n >= box[1];
  });
  const { eastward, northward, flow, wetness } = ground.relief;
  return {
    ...ground,
    terrain: { ...ground.terrain, elevation: cut(elevation) },
    relief: { eastward: cut(eastward), northward: cut(northward), flow: cut(flow), wetness: cut(wetness) },
    cover: cut(ground.cover),
    hazard: cut(ground.hazard),
    features,
    byId: new Map(features.map((f) => [f.id, f])),
  };
}

function cutOut<T extends Cells>(
  raster: Raster<T>,
  column: number,
  row: number,
  columns: number,
  rows: number,
): Raster<T> {
  const { west, north, cell, data } = raster;
  const part = data.slice(0, columns * rows) as T;
  for (let r = 0; r < rows; r++) {
    const from = (row + r) * raster.columns + column;
    part.set(data.subarray(from, from + columns), r * columns);
  }
  return {
    crs: raster.crs,
    west: west + column * cell,
    north: north - row * cell,
    cell,
    columns,
    rows,
    data: part,
  };
}
