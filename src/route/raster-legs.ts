import type { CostSurface } from '../cost/surface.ts';
import type { Feature } from '../features/feature.ts';
import { centreEast, centreNorth } from '../grid/raster.ts';
import { distance, type Point } from '../math/plane.ts';
import type { Leg } from './leg.ts';
import { matchLines } from './match-lines.ts';
import type { Planning } from './planning.ts';
import { legsOfStretches } from './stretch-legs.ts';

/** Centres of a line of cells, its ends moved to where the party really is. */
export function cellLine(surface: CostSurface, cells: ArrayLike<number>, from: Point, to: Point): Point[] {
  const line: Point[] = [from];
  for (let i = 1; i < cells.length - 1; i++) {
    const c = cells[i]! % surface.columns;
    line.push([centreEast(surface, c), centreNorth(surface, (cells[i]! - c) / surface.columns)]);
  }
  line.push(to);
  return line.filter((p, i) => i === 0 || distance(p, line[i - 1]!) > 0);
}

/**
 * A line of the raster search made walkable: along mapped lines where it keeps to them, else as few straight legs as stay
 * open and near it. It ends at `end`, the target or an attack point.
 */
export function legsOfRaster(
  planning: Planning,
  line: readonly Point[],
  end: { readonly at: Point; readonly feature: Feature },
): Leg[] {
  const { cell } = planning.ground.terrain.elevation;
  const there: Planning = { ...planning, errand: { ...planning.errand, target: end } };
  const tolerance = Math.max(20, 1.5 * cell);
  const stretches = matchLines(there, line, { tolerance });
  return legsOfStretches(there, stretches, { tolerance: Math.max(30, 2 * cell), snap: Math.max(40, cell) });
}
