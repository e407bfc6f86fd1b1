import { type CostSurface, PACE_STEPS } from '../cost/surface.ts';
import { centreEast, centreNorth } from '../grid/raster.ts';
import type { Point } from '../math/plane.ts';
import { isClosed, PACE_LAST, PACE_ZERO } from './edge.ts';
import { zigzagPace } from './zigzag.ts';

/** A line over the ground in map metres, in the direction of travel, and its seconds. */
export interface GroundLine {
  readonly points: readonly Point[];
  readonly seconds: number;
}

/** A place between cell centres: on the segment from one open cell to an orthogonal neighbour, `share` of the way. */
interface Place {
  readonly cell: number;
  readonly next: number;
  readonly share: number;
  readonly column: number;
  readonly row: number;
}

/**
 * The line between a cell and the nearest source of a field of `anyAngleField`: down the field from grid line to grid line, each time to
 * the point from which the seconds follow best.
 *
 * @returns null where the field is Infinity.
 */
export function anyAngleLine(
  surface: CostSurface,
  field: Float32Array,
  cell: number,
  direction: 'from' | 'to',
): GroundLine | null {
  if (!(field[cell]! < Number.POSITIVE_INFINITY)) return null;
  const pace = zigzagPace(Float64Array.from(surface.pace));
  const sign = direction === 'from' ? 1 : -1;
  const secondsBetween = (near: Place, far: Place): number => {
    const dx = far.column - near.column;
    const dy = far.row - near.row;
    const metres = surface.cell * Math.sqrt(dx * dx + dy * dy);
    const rise = sign * (read(surface.elevation, far) - read(surface.elevation, near));
    const factor = read(surface.factor, near) + read(surface.factor, far);
    return metres === 0 ? 0 : metres * 0.5 * factor * readPace(pace, rise / metres);
  };

  const places = [centre(surface, cell)];
  let seconds = 0;
  for (let here = places[0]!; read(field, here) > 0; ) {
    const from = here;
    const best = nextPlace(surface, field, from, (place) => read(field, place) + secondsBetween(place, from));
    if (best === null) {
      throw new Error('any-angle field: costs differ too widely for Float32 seconds');
    }
    seconds += secondsBetween(best, from);
    places.push(best);
    here = best;
  }
  if (direction === 'from') places.reverse();
  const points = places.map((p): Point => [centreEast(surface, p.column), centreNorth(surface, p.row)]);
  return { points, seconds };
}

/** Linear between the two cells; an end alone does not touch the other, which may be closed. */
function read(values: Float32Array, { cell, next, share }: Place): number {
  return share === 0 ? values[cell]! : values[cell]! * (1 - share) + values[next]! * share;
}

function readPace(pace: Float64Array, gradient: number): number {
  const y = Math.min(Math.max(gradient * PACE_STEPS + PACE_ZERO, 0), PACE_LAST);
  const at = Math.min(Math.floor(y), PACE_LAST - 1);
  return pace[at]! + (pace[at + 1]! - pace[at]!) * (y - at);
}

function centre(surface: CostSurface, cell: number): Place {
  const column = cell % surface.columns;
  return { cell, next: cell, share: 0, column, row: (cell - column) / surface.columns };
}

/** The place on the sides of the squares around `here` that has the least `total`; null when all are closed. */
function nextPlace(
  surface: CostSurface,
  field: Float32Array,
  here: Place,
  total: (place: Place) => number,
): Place | null {
  let best: Place | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [a, b] of sidesAround(surface, here)) {
    const place = bestOnSide(surface, a, b, total);
    const seconds = total(place);
    // only downhill on the field: a tie of Float32 seconds must not turn the line round
    if (seconds < least && read(field, place) < read(field, here)) {
      least = seconds;
      best = place;
    }
  }
  return best;
}

/** Ternary search along a side; its sums are convex for one uniform triangle and nearly so elsewhere. */
function bestOnSide(surface: CostSurface, a: number, b: number, total: (place: Place) => number): Place {
  const from = centre(surface, a);
  const to = centre(surface, b);
  const at = (share: number): Place =>
    share === 1
      ? to
      : {
          cell: a,
          next: b,
          share,
          column: from.column + (to.column - from.column) * share,
          row: from.row + (to.row - from.row) * share,
        };
  if (a === b) return from;
  let low = 0;
  let high = 1;
  for (let pass = 0; pass < 20; pass++) {
    const third = (high - low) / 3;
    if (total(at(low + third)) <= total(at(high - third))) high -= third;
    else low += third;
  }
  const inner = at((low + high) / 2);
  return [from, to].reduce((best, end) => (total(end) <= total(best) ? end : best), inner);
}

/** Sides between open cells; a side with one open end is that cell alone (a = b). */
function sidesAround(surface: CostSurface, here: Place): [number, number][] {
  const { columns, rows } = surface;
  const open = (column: number, row: number): number => {
    if (column < 0 || row < 0 || column >= columns || row >= rows) return -1;
    const cell = row * columns + column;
    return isClosed(surface, cell) ? -1 : cell;
  };
  const sides: [number, number][] = [];
  const side = (a: number, b: number): void => {
    if (a >= 0 || b >= 0) sides.push([a >= 0 ? a : b, b >= 0 ? b : a]);
  };
  const c = Math.floor(here.column);
  const r = Math.floor(here.row);
  if (here.share === 0) {
    for (const [dc, dr] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      // from a centre the way to a diagonal neighbour needs the orthogonal one beside it
      const beside = open(c + dc, r + dr);
      if (beside < 0) continue;
      side(beside, open(c + dc - dr, r + dr + dc));
      side(beside, open(c + dc + dr, r + dr - dc));
    }
    return sides;
  }
  const level = here.row === r;
  for (const step of [1, -1]) {
    const a = level ? open(c, r + step) : open(c + step, r);
    const b = level ? open(c + 1, r + step) : open(c + step, r + 1);
    side(here.cell, a);
    side(here.next, b);
    side(a, b);
  }
  return sides;
}
