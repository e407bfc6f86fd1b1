import { length } from '../math/plane.ts';
import type { Georeference } from './raster.ts';

/**
 * Walks the cells that a segment crosses, in order from a to b, with the metres inside each (Amanatides & Woo 1987).
 * Cells off the map are left out. Neighbouring visits share a side: where the segment passes exactly through a corner, one of
 * the two cells beside it is visited with 0 m, so that a painted wall has no diagonal gap. A segment of no length visits its cell once.
 */
export function traverse(
  g: Georeference,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  visit: (cell: number, metres: number) => void,
): void {
  const { columns, rows } = g;
  const x0 = (ax - g.west) / g.cell;
  const y0 = (g.north - ay) / g.cell;
  const dx = (bx - ax) / g.cell;
  const dy = (ay - by) / g.cell;
  const metres = length(bx - ax, by - ay);

  // the shares t of the segment that lie on the map (Liang & Barsky 1984)
  let t = 0;
  let end = 1;
  if (dx === 0) {
    if (!(x0 >= 0 && x0 < columns)) return;
  } else {
    const near = (dx > 0 ? -x0 : columns - x0) / dx;
    const far = (dx > 0 ? columns - x0 : -x0) / dx;
    if (near > t) t = near;
    if (far < end) end = far;
  }
  if (dy === 0) {
    if (!(y0 >= 0 && y0 < rows)) return;
  } else {
    const near = (dy > 0 ? -y0 : rows - y0) / dy;
    const far = (dy > 0 ? rows - y0 : -y0) / dy;
    if (near > t) t = near;
    if (far < end) end = far;
  }
  if (!(t <= end)) return;

  let c = Math.min(Math.max(Math.floor(x0 + t * dx), 0), columns - 1);
  let r = Math.min(Math.max(Math.floor(y0 + t * dy), 0), rows - 1);
  const stepC = dx > 0 ? 1 : -1;
  const stepR = dy > 0 ? 1 : -1;
  for (;;) {
    // where the segment leaves this cell; computed from the cell, not summed up, so that no error grows
    const leaveX = dx === 0 ? Number.POSITIVE_INFINITY : (c + (dx > 0 ? 1 : 0) - x0) / dx;
    const leaveY = dy === 0 ? Number.POSITIVE_INFINITY : (r + (dy > 0 ? 1 : 0) - y0) / dy;
    const leave = Math.min(leaveX, leaveY);
    const stop = Math.min(leave, end);
    visit(r * columns + c, stop > t ? (stop - t) * metres : 0);
    if (leave >= end) return;
    if (leave > t) t = leave;
    if (leaveX <= leaveY) {
      c += stepC;
      if (c < 0 || c >= columns) return;
    } else {
      r += stepR;
      if (r < 0 || r >= rows) return;
    }
  }
}
