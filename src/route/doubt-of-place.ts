import { length, type Point } from '../math/plane.ts';

/**
 * Where a party is against where it thinks it is, in closed form: mean error and covariance, metres and square metres.
 * A value; every step gives a new one.
 */
export interface PlaceDoubt {
  readonly east: number;
  readonly north: number;
  readonly ee: number;
  readonly en: number;
  readonly nn: number;
}

/** At a place known to an SD in both directions. */
export function knownTo(sd: number): PlaceDoubt {
  return { east: 0, north: 0, ee: sd * sd, en: 0, nn: sd * sd };
}

/** After a walk in direction u (unit) with SDs along and across it, and a mean shift to the right. */
export function walked(d: PlaceDoubt, u: Point, along: number, across: number, right: number): PlaceDoubt {
  const [x, y] = u;
  const a = along * along;
  const c = across * across;
  return {
    east: d.east + right * y,
    north: d.north - right * x,
    ee: d.ee + a * x * x + c * y * y,
    en: d.en + (a - c) * x * y,
    nn: d.nn + a * y * y + c * x * x,
  };
}

/** On a line of direction u: what is left is the doubt along it, and the line's own place across it. */
export function onLine(along: number, u: Point, sd: number): PlaceDoubt {
  return walked({ east: 0, north: 0, ee: 0, en: 0, nn: 0 }, u, along, sd, 0);
}

/** Of parties of which a share is in doubt a and the rest in doubt b: the same mean squares. */
export function mixed(a: PlaceDoubt, b: PlaceDoubt, share: number): PlaceDoubt {
  const rest = 1 - share;
  return {
    east: share * a.east + rest * b.east,
    north: share * a.north + rest * b.north,
    ee: share * a.ee + rest * b.ee,
    en: share * a.en + rest * b.en,
    nn: share * a.nn + rest * b.nn,
  };
}

/** SD in direction u, metres. */
export function sdIn(d: PlaceDoubt, u: Point): number {
  const [x, y] = u;
  return Math.sqrt(Math.max(0, d.ee * x * x + 2 * d.en * x * y + d.nn * y * y));
}

/** Mean square error of the place, m². */
export function spreadOf(d: PlaceDoubt): number {
  return d.ee + d.nn + d.east * d.east + d.north * d.north;
}

/** Mean error in direction u, metres. */
export function meanIn(d: PlaceDoubt, u: Point): number {
  return d.east * u[0] + d.north * u[1];
}

/** Unit vector a→b; north for two equal points. */
export function unit(a: Point, b: Point): Point {
  const d = length(b[0] - a[0], b[1] - a[1]);
  return d === 0 ? [0, 1] : [(b[0] - a[0]) / d, (b[1] - a[1]) / d];
}

export function rightOf(u: Point): Point {
  return [u[1], -u[0]];
}
