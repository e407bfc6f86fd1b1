import type { Feature } from '../features/feature.ts';
import { distance, lineLength, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import type { Leg } from './leg.ts';
import { lineOf } from './map-line.ts';

/** Lateral SDs aimed off by default, and the bounds in metres. Common practice, no source. */
export const AIM_OFF_SDS = 1.75;
const LEAST_OFFSET = 30;
const MOST_OFFSET = 150;
/** Side slope (rise per metre) below which drift is no reason to prefer a side. */
const LEVEL = 0.03;

/** A default offset in metres, on a whole 5 m, for a lateral SD in metres where the line is met. */
export function defaultOffset(lateral: number, sds = AIM_OFF_SDS): number {
  return Math.round(Math.min(MOST_OFFSET, Math.max(LEAST_OFFSET, sds * lateral)) / 5) * 5;
}

export interface AimOff {
  readonly from: Point;
  readonly line: Feature;
  /** Metres along `line` of the place that is wanted. */
  readonly wantedAlong: number;
  readonly side: 'left' | 'right';
  readonly offsetMetres: number;
}

/** A leg aimed at a place of the line to one side of the wanted one. Where the line ends sooner, its end is aimed at. */
export function aimOffLeg(aim: AimOff): Leg {
  const { from, line, wantedAlong, side, offsetMetres } = aim;
  const points = lineOf(line)!;
  const sense = senseOnSide(from, points, wantedAlong, side, offsetMetres);
  const along = Math.min(Math.max(wantedAlong + sense * offsetMetres, 0), lineLength(points));
  return { ...joinLeg(from, line, along, wantedAlong), side };
}

/** A walk on to a line at `joinAlong`, so far to one side of the wanted place that there is no doubt which way to turn. */
export function joinLeg(from: Point, line: Feature, joinAlong: number, wantedAlong: number): Leg {
  const points = lineOf(line)!;
  const to = pointAlong(points, joinAlong);
  const wanted = pointAlong(points, wantedAlong);
  const left = (wanted[0] - from[0]) * (to[1] - wanted[1]) - (wanted[1] - from[1]) * (to[0] - wanted[0]);
  return {
    technique: 'aim-off',
    from,
    to,
    path: [from, to],
    line: line.id,
    toAlong: joinAlong,
    wanted,
    side: left >= 0 ? 'left' : 'right',
    offsetMetres: Math.abs(joinAlong - wantedAlong),
    ticks: [],
    fine: false,
  };
}

/** Which way along the line lies to the `side` of the wanted place, for someone who walks on to it from `from`. */
function senseOnSide(
  from: Point,
  line: readonly Point[],
  wantedAlong: number,
  side: 'left' | 'right',
  offset: number,
): -1 | 1 {
  const wanted = pointAlong(line, wantedAlong);
  const leftward = (p: Point) =>
    (wanted[0] - from[0]) * (p[1] - wanted[1]) - (wanted[1] - from[1]) * (p[0] - wanted[0]);
  const on = leftward(pointAlong(line, wantedAlong + offset));
  const back = leftward(pointAlong(line, Math.max(0, wantedAlong - offset)));
  return on > back === (side === 'left') ? 1 : -1;
}

/**
 * The side to aim off to: the way the ground falls, since parties drift downhill; on level ground the side that leaves more
 * line to hit, then the nearer one. `slope` is the mean rise per metre towards the right of the walk.
 */
export function driftSide(
  slope: number,
  from: Point,
  line: Feature,
  wantedAlong: number,
  offset: number,
): 'left' | 'right' {
  const points = lineOf(line)!;
  const room = (side: 'left' | 'right') =>
    senseOnSide(from, points, wantedAlong, side, offset) > 0 ? lineLength(points) - wantedAlong : wantedAlong;
  const left = room('left');
  const right = room('right');
  // Aimed to the low side, drift only makes the known side surer.
  const low = slope > 0 ? 'left' : 'right';
  if (Math.abs(slope) > LEVEL && (low === 'left' ? left : right) >= offset) return low;
  if (left >= 2 * offset && right >= 2 * offset) {
    const nearer = (side: 'left' | 'right') =>
      distance(from, aimOffLeg({ from, line, wantedAlong, side, offsetMetres: offset }).to);
    return nearer('right') < nearer('left') ? 'right' : 'left';
  }
  return right > left ? 'right' : 'left';
}

/** Sine of the angle at which a walk from `from` meets a line at `along`: 1 square, 0 grazing. */
export function crossingSine(from: Point, line: readonly Point[], along: number): number {
  const at = pointAlong(line, along);
  const a = pointAlong(line, Math.max(0, along - 20));
  const b = pointAlong(line, along + 20);
  const scale = distance(from, at) * distance(a, b);
  if (scale === 0) return 1;
  return Math.abs((at[0] - from[0]) * (b[1] - a[1]) - (at[1] - from[1]) * (b[0] - a[0])) / scale;
}

/** Metres along a line of the place nearest to p. */
export function alongNearest(line: Feature, p: Point): number {
  return nearestOnLine(p, lineOf(line)!).along;
}
