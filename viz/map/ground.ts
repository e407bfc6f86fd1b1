import { unpackLayer } from '../../src/report/packed-layer.ts';
import type { Report } from '../../src/report/report.ts';
import type { Bounds } from './view.ts';

/** Heights of a rectangle of the report's ground; NaN is missing. */
export interface Ground {
  readonly heights: Float32Array;
  readonly columns: number;
  readonly rows: number;
  readonly cell: number;
  /** Outer edges, metres. */
  readonly west: number;
  readonly north: number;
}

/** The heights of the report, or null when it carries none. */
export function groundOf(report: Report): Ground | null {
  const g = report.ground;
  const layer = g.layers.find((l) => l.name === 'elevation');
  if (layer === undefined) return null;
  const heights = unpackLayer(layer, g.columns, g.rows);
  return { heights, columns: g.columns, rows: g.rows, cell: g.cell, west: g.origin[0], north: g.origin[1] };
}

/** The cells that cover the bounds, with one more on each side where there is one; null when none do. */
export function cropped(ground: Ground, bounds: Bounds): Ground | null {
  const { cell, columns, rows } = ground;
  const c0 = Math.max(0, Math.floor((bounds.west - ground.west) / cell) - 1);
  const c1 = Math.min(columns, Math.ceil((bounds.east - ground.west) / cell) + 1);
  const r0 = Math.max(0, Math.floor((ground.north - bounds.north) / cell) - 1);
  const r1 = Math.min(rows, Math.ceil((ground.north - bounds.south) / cell) + 1);
  if (c1 - c0 < 2 || r1 - r0 < 2) return null;
  const heights = new Float32Array((c1 - c0) * (r1 - r0));
  for (let r = r0; r < r1; r++) {
    heights.set(ground.heights.subarray(r * columns + c0, r * columns + c1), (r - r0) * (c1 - c0));
  }
  return {
    heights,
    columns: c1 - c0,
    rows: r1 - r0,
    cell,
    west: ground.west + c0 * cell,
    north: ground.north - r0 * cell,
  };
}
