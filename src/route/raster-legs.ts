import type { CostSurface } from '../cost/surface.ts';
import type { Feature } from '../features/feature.ts';
import { centreEast, centreNorth } from '../grid/raster.ts';
import { distance, type Point } from '../math/plane.ts';
import { figuresOf } from './figures.ts';
import type { Leg } from './leg.ts';
import { matchLines } from './match-lines.ts';
import { isBlocked, type Planning } from './planning.ts';
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
  const options = { tolerance: Math.max(30, 2 * cell), snap: Math.max(40, cell) };
  return straightened(there, legsOfStretches(there, stretches, options));
}

/** A bend at a point in the open that saves less than this share of the time is not worth a new bearing. */
const WORTH_A_BEND = 0.06;

/** Takes out bends where nothing tells the party that it is there, unless the straight walk is closed or much slower. */
function straightened(planning: Planning, legs: readonly Leg[]): Leg[] {
  const kept: Leg[] = [];
  for (const leg of legs) {
    const before = kept[kept.length - 1];
    const straight = before && oneInstead(planning, before, leg);
    if (straight) kept[kept.length - 1] = straight;
    else kept.push(leg);
  }
  return kept;
}

function oneInstead(planning: Planning, a: Leg, b: Leg): Leg | null {
  if (a.technique !== 'bearing' || a.toFeature !== undefined) return null;
  if (b.technique !== 'bearing' && b.technique !== 'sight' && b.technique !== 'aim-off') return null;
  if (isBlocked(planning, a.from, b.to)) return null;
  const one: Leg = {
    ...b,
    technique: b.technique === 'sight' ? 'bearing' : b.technique,
    from: a.from,
    path: [a.from, b.to],
  };
  const minutes = (leg: Leg) => figuresOf(leg, planning.walking).minutes;
  return minutes(one) <= (1 + WORTH_A_BEND) * (minutes(a) + minutes(b)) ? one : null;
}
