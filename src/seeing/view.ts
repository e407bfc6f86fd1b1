import type { Feature } from '../features/feature.ts';
import { boxOf } from '../features/index-near.ts';
import { columnOf, type Georeference, type Raster, rowOf } from '../grid/raster.ts';
import { distance, type Point } from '../math/plane.ts';
import { viewshed } from '../terrain/viewshed.ts';
import { EYE_METRES, shownMetres } from './shown-height.ts';

/** Metres at which a feature can be made out by somebody below and above the cloud base. */
export interface Reach {
  readonly below: number;
  readonly above: number;
}

/** Bits of `View.seen`. */
export const FROM_BELOW = 1;
export const FROM_ABOVE = 2;

/** From where one feature can be made out: a window of the terrain's raster, bits per cell. */
export interface View {
  readonly feature: Feature;
  readonly reach: Reach;
  /** First column and row of the window in the terrain's raster. */
  readonly column: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
  readonly seen: Uint8Array;
}

/** Cells within reach and in line of sight of a feature; of a line or an area's edge, of any part of it. */
export function viewOf(elevation: Raster, feature: Feature, reach: Reach): View {
  const far = Math.max(reach.below, reach.above);
  const [west, south, east, north] = boxOf(feature.geometry);
  const column = clamp(columnOf(elevation, west - far), elevation.columns);
  const row = clamp(rowOf(elevation, north + far), elevation.rows);
  const columns = clamp(columnOf(elevation, east + far), elevation.columns) - column + 1;
  const rows = clamp(rowOf(elevation, south - far), elevation.rows) - row + 1;
  const view: View = { feature, reach, column, row, columns, rows, seen: new Uint8Array(columns * rows) };
  for (const at of standpoints(feature, Math.max(elevation.cell, far / 2))) addDisc(elevation, view, at);
  return view;
}

/** Whether somebody in a cell of the terrain's raster can make the feature out. */
export function inView(view: View, column: number, row: number, aboveCloud: boolean): boolean {
  const c = column - view.column;
  const r = row - view.row;
  if (c < 0 || r < 0 || c >= view.columns || r >= view.rows) return false;
  return (view.seen[r * view.columns + c]! & (aboveCloud ? FROM_ABOVE : FROM_BELOW)) !== 0;
}

/** Places from which a feature is looked at in turn: the point itself, or one every `spacing` metres along its lines, both ends too. */
function standpoints({ geometry }: Feature, spacing: number): Point[] {
  if (geometry.type === 'point') return [geometry.at];
  const at: Point[] = [];
  for (const points of geometry.type === 'line' ? [geometry.points] : geometry.rings) {
    at.push(points[0]!);
    let wait = spacing;
    for (let i = 1; i < points.length; i++) {
      const a = points[i - 1]!;
      const b = points[i]!;
      const metres = distance(a, b);
      for (; wait <= metres; wait += spacing) {
        const t = wait / metres;
        at.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
      }
      wait -= metres;
    }
    at.push(points[points.length - 1]!);
  }
  return at;
}

function addDisc(elevation: Raster, view: View, at: Point): void {
  const { cell } = elevation;
  const { below, above } = view.reach;
  const c0 = columnOf(elevation, at[0]);
  const r0 = rowOf(elevation, at[1]);
  if (c0 < 0 || r0 < 0 || c0 >= elevation.columns || r0 >= elevation.rows) return;
  const far = Math.max(below, above);
  const n = Math.floor(far / cell);
  const west = Math.max(view.column, c0 - n);
  const top = Math.max(view.row, r0 - n);
  const east = Math.min(view.column + view.columns - 1, c0 + n);
  const foot = Math.min(view.row + view.rows - 1, r0 + n);
  // the nearest ring is always in view: no sight line is asked for so short a reach
  const near = n <= 1;
  const window = { column: west, row: top, columns: east - west + 1, rows: foot - top + 1 };
  const lit = near
    ? null
    : viewshed(cut(elevation, window), at[0], at[1], shownMetres(view.feature.kind), EYE_METRES, far);
  const below2 = (below * below) / (cell * cell);
  const above2 = (above * above) / (cell * cell);
  let k = 0;
  for (let r = top; r <= foot; r++) {
    let i = (r - view.row) * view.columns + west - view.column;
    for (let c = west; c <= east; c++, i++, k++) {
      if (lit !== null && lit[k] === 0) continue;
      const d2 = (c - c0) * (c - c0) + (r - r0) * (r - r0);
      if (d2 <= below2) view.seen[i]! |= FROM_BELOW;
      if (d2 <= above2) view.seen[i]! |= FROM_ABOVE;
    }
  }
}

/** A copied window of a raster. */
function cut(
  raster: Raster,
  at: { readonly column: number; readonly row: number; readonly columns: number; readonly rows: number },
): Raster {
  const data = new Float32Array(at.columns * at.rows);
  for (let r = 0; r < at.rows; r++) {
    const from = (at.row + r) * raster.columns + at.column;
    data.set(raster.data.subarray(from, from + at.columns), r * at.columns);
  }
  const place: Georeference = {
    crs: raster.crs,
    west: raster.west + at.column * raster.cell,
    north: raster.north - at.row * raster.cell,
    cell: raster.cell,
    columns: at.columns,
    rows: at.rows,
  };
  return { ...place, data };
}

function clamp(index: number, count: number): number {
  return index < 0 ? 0 : Math.min(index, count - 1);
}
