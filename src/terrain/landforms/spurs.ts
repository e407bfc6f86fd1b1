import { centreEast, centreNorth, type Raster } from '../../grid/raster.ts';
import { length } from '../../math/plane.ts';
import { type Landform, REACH_METRES, reachCells } from './landform.ts';

/** Ground flatter than this has neither spur nor re-entrant. Common practice, no source. */
const LEAST_TANGENT = 0.05;
/** Of two of a kind nearer than this the weaker one is dropped, metres. */
const APART_METRES = 4 * REACH_METRES;

/**
 * Spurs and re-entrants: where the ground, followed along the contour direction for the reach to both sides, falls (spur) or rises
 * (re-entrant) by `least` metres or more on both. The strongest places, a few hundred metres apart, stand for each.
 */
export function spursAndReentrants(elevation: Raster, least: number): Landform[] {
  const { columns, rows, cell, data } = elevation;
  const n = reachCells(cell);
  const places: number[] = [];
  const depths: number[] = [];
  for (let r = n; r < rows - n; r++) {
    for (let c = n; c < columns - n; c++) {
      const i = r * columns + c;
      const east = data[i + n]! - data[i - n]!;
      const north = data[i - n * columns]! - data[i + n * columns]!;
      const steep = length(east, north);
      if (!(steep >= LEAST_TANGENT * 2 * n * cell)) continue;
      // a step of the reach square to the gradient
      const across = -Math.round((north / steep) * n);
      const down = -Math.round((east / steep) * n);
      const step = down * columns + across;
      const left = data[i + step]! - data[i]!;
      const right = data[i - step]! - data[i]!;
      const depth =
        left > 0 && right > 0 ? Math.min(left, right) : left < 0 && right < 0 ? Math.max(left, right) : 0;
      if (Math.abs(depth) < least) continue;
      places.push(i);
      depths.push(depth);
    }
  }
  const order = Array.from(places.keys()).sort(
    (a, b) => Math.abs(depths[b]!) - Math.abs(depths[a]!) || a - b,
  );
  const spurs = new Spacing(elevation);
  const reentrants = new Spacing(elevation);
  const found: Landform[] = [];
  for (const k of order) {
    const i = places[k]!;
    const at = [centreEast(elevation, i % columns), centreNorth(elevation, Math.floor(i / columns))] as const;
    const depth = depths[k]!;
    if (!(depth < 0 ? spurs : reentrants).take(at[0], at[1])) continue;
    found.push({ kind: depth < 0 ? 'spur' : 're-entrant', at, reliefMetres: Math.abs(depth) });
  }
  return found;
}

/** Places that keep their distance from each other, kept in squares of that side. */
class Spacing {
  private readonly taken = new Map<number, (readonly [number, number])[]>();
  private readonly west: number;
  private readonly north: number;
  private readonly across: number;

  constructor({ west, north, columns, cell }: Raster) {
    this.west = west;
    this.north = north;
    this.across = Math.ceil((columns * cell) / APART_METRES) + 3;
  }

  take(east: number, north: number): boolean {
    const x = Math.floor((east - this.west) / APART_METRES) + 1;
    const y = Math.floor((this.north - north) / APART_METRES) + 1;
    for (let dy = -1; dy <= 1; dy++) {
      for (let dx = -1; dx <= 1; dx++) {
        for (const [e, n] of this.taken.get((y + dy) * this.across + x + dx) ?? []) {
          if (length(e - east, n - north) < APART_METRES) return false;
        }
      }
    }
    const key = y * this.across + x;
    const here = this.taken.get(key);
    if (here === undefined) this.taken.set(key, [[east, north]]);
    else here.push([east, north]);
    return true;
  }
}
