import type { Point } from '../math/plane.ts';
import { centreNorth, type Georeference } from './raster.ts';
import { traverse } from './traverse.ts';

/** Visits every cell that a polyline touches; cells follow each other by their sides. A cell can be visited more than once. */
export function paintLine(g: Georeference, points: readonly Point[], visit: (cell: number) => void): void {
  const first = points[0];
  if (first === undefined) return;
  if (points.length === 1) traverse(g, first[0], first[1], first[0], first[1], visit);
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    traverse(g, a[0], a[1], b[0], b[1], visit);
  }
}

/**
 * Visits once every cell whose centre lies inside the rings by the even-odd rule: a ring inside a ring is a hole. Rings close
 * themselves. Areas that share an edge share no cell. An area that holds no centre visits nothing: paint its outline as a line too
 * where a thin area must not vanish.
 */
export function paintArea(
  g: Georeference,
  rings: readonly (readonly Point[])[],
  visit: (cell: number) => void,
): void {
  let south = Number.POSITIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (const ring of rings) {
    for (const [, y] of ring) {
      if (y < south) south = y;
      if (y > north) north = y;
    }
  }
  const from = Math.max(Math.floor((g.north - north) / g.cell - 0.5), 0);
  const to = Math.min(Math.ceil((g.north - south) / g.cell - 0.5), g.rows - 1);
  const crossings: number[] = [];
  for (let r = from; r <= to; r++) {
    const y = centreNorth(g, r);
    crossings.length = 0;
    for (const ring of rings) {
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const a = ring[j]!;
        const b = ring[i]!;
        // half open, so that a vertex on the row of centres counts once
        if (a[1] <= y !== b[1] <= y) crossings.push(a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
      }
    }
    crossings.sort((p, q) => p - q);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const first = Math.max(Math.ceil((crossings[k]! - g.west) / g.cell - 0.5), 0);
      const last = Math.min(Math.ceil((crossings[k + 1]! - g.west) / g.cell - 0.5) - 1, g.columns - 1);
      for (let c = first; c <= last; c++) visit(r * g.columns + c);
    }
  }
}
