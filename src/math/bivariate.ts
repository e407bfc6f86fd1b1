import { normalCdf } from './normal-cdf.ts';
import { asin, cos, exp, sin } from './portable.ts';

/*
 * Closed forms of a straight leg, small angles: where a party stops is normal with an SD across and an SD along the track.
 * Cheap estimates for choosing among routes, and the figures that the simulator is checked against.
 */

/** Nodes and weights of 8-point Gauss–Legendre on [−1, 1], the positive half. */
const NODES = [0.18343464249564978, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];
const WEIGHTS = [0.362683783378362, 0.31370664587788727, 0.22238103445337448, 0.10122853629037626];
const PANELS = 24;
/** Beyond so many SD nothing is left that a double would show in a sum near 1. */
const REACH = 9;

/**
 * P(stop within R of the target): a normal place with the given SDs and mean offsets, inside a circle of radius R about the origin.
 * ∫ φ((x−m)/s)/s · [Φ((h−m′)/s′) − Φ((−h−m′)/s′)] dx, h = √(R² − x²), x = R·sin t. An SD of 0 is allowed.
 */
export function stopsWithin(
  radius: number,
  sdAcross: number,
  sdAlong: number,
  across = 0,
  along = 0,
): number {
  if (radius <= 0) return 0;
  // the sum runs across the narrower of the two, so that what is summed has no step
  if (sdAlong < sdAcross) return stopsWithin(radius, sdAlong, sdAcross, along, across);
  if (sdAcross === 0) {
    const square = radius * radius - across * across;
    return square < 0 ? 0 : passesWithin(Math.sqrt(square), sdAlong, along);
  }
  const low = Math.max(-1, (across - REACH * sdAcross) / radius);
  const high = Math.min(1, (across + REACH * sdAcross) / radius);
  if (low >= high) return 0;
  const from = asin(low);
  const step = (asin(high) - from) / PANELS;
  let sum = 0;
  for (let p = 0; p < PANELS; p++) {
    const middle = from + (p + 0.5) * step;
    for (let k = 0; k < 4; k++) {
      const t = (NODES[k]! * step) / 2;
      sum +=
        WEIGHTS[k]! *
        (slice(middle - t, radius, sdAcross, sdAlong, across, along) +
          slice(middle + t, radius, sdAcross, sdAlong, across, along));
    }
  }
  return (sum * step) / 2;
}

const SQRT_TURN = Math.sqrt(2 * Math.PI);

function slice(t: number, radius: number, sx: number, sy: number, mx: number, my: number): number {
  const z = (radius * sin(t) - mx) / sx;
  const half = radius * cos(t);
  return ((exp((-z * z) / 2) * half) / (sx * SQRT_TURN)) * passesWithin(half, sy, my);
}

/**
 * P(an endless straight track passes within R of the target), or that a line is met within ±R of a place, or that a normal offset
 * falls into ±R. `offset` is the mean distance of the track from the target.
 */
export function passesWithin(radius: number, sd: number, offset = 0): number {
  if (sd === 0) return Math.abs(offset) <= radius ? 1 : 0;
  return normalCdf(radius, offset, sd) - normalCdf(-radius, offset, sd);
}

/** P(the line is reached on the side aimed at) when aiming off by `offset` metres with a lateral SD. */
export function rightSide(offset: number, sd: number): number {
  return sd === 0 ? (offset > 0 ? 1 : 0.5) : normalCdf(offset, 0, sd);
}
