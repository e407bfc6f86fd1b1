import { exp, ln } from '../math/portable.ts';
import type { Belief } from './belief.ts';
import { UNSET } from './unset.ts';
import { BOXED, STREAM, WAY, type World } from './world.ts';

/** Where a believed track crosses a mapped line. */
export interface Crossing {
  /** Metres ahead (+) or behind (−) of the believed place, along the heading. */
  ahead: number;
  x: number;
  y: number;
  along: number;
  /** Direction of the line there, as drawn. */
  dx: number;
  dy: number;
  found: boolean;
}

export function newCrossing(): Crossing {
  return { ahead: UNSET, x: UNSET, y: UNSET, along: UNSET, dx: UNSET, dy: UNSET, found: false };
}

/**
 * The crossing of line `index` with the track through (x, y) in direction (ux, uy) that lies nearest, ahead or behind, and
 * within `reach` metres. Writes into `out`.
 */
export function crossingOf(
  world: World,
  index: number,
  x: number,
  y: number,
  ux: number,
  uy: number,
  reach: number,
  out: Crossing,
): void {
  const l = world.lines[index]!;
  out.found = false;
  let best = reach;
  const { boxes } = l;
  for (let k = 0; k + 1 < l.x.length; k++) {
    if (k % BOXED === 0) {
      const box = (k / BOXED) * 4;
      const west = boxes[box]! - x;
      const south = boxes[box + 1]! - y;
      const east = boxes[box + 2]! - x;
      const north = boxes[box + 3]! - y;
      // out of reach, or wholly to one side of the track
      const out =
        west > best ||
        east < -best ||
        south > best ||
        north < -best ||
        sideOf(west, south, east, north, ux, uy) !== 0;
      if (out) {
        k += BOXED - 1;
        continue;
      }
    }
    const ax = l.x[k]! - x;
    const ay = l.y[k]! - y;
    const dx = l.x[k + 1]! - l.x[k]!;
    const dy = l.y[k + 1]! - l.y[k]!;
    const across = dx * uy - dy * ux;
    if (across === 0) continue;
    // share along the segment at which it meets the track: a × u + t·(d × u) = 0
    const t = -(ax * uy - ay * ux) / across;
    if (t < 0 || t > 1) continue;
    const ahead = (ax + dx * t) * ux + (ay + dy * t) * uy;
    const off = Math.abs(ahead);
    if (off >= best) continue;
    best = off;
    const d = Math.sqrt(dx * dx + dy * dy);
    out.found = true;
    out.ahead = ahead;
    out.x = x + ahead * ux;
    out.y = y + ahead * uy;
    out.along = l.along[k]! + t * (l.along[k + 1]! - l.along[k]!);
    out.dx = dx / d;
    out.dy = dy / d;
  }
}

export interface Verdict {
  /** Line it is taken for; −1 unsure (none fits better than something unmapped). */
  line: number;
  /** Clash of the line that was wanted, in SD; Infinity when the track does not meet it on the map. */
  clash: number;
  crossing: Crossing;
}

/**
 * Which mapped line was met? Weighs every candidate of the family by the distance counted, the angle at which it is
 * crossed and its chance to exist, against the chance of something unmapped.
 *
 * L = exists · exp(−½(Δ/σ)²) / σ · exp(−½(α/σ_α)²), Δ metres between the count and the crossing on the map.
 */
export function whichLine(
  world: World,
  candidates: readonly number[],
  family: number,
  belief: Belief,
  ux: number,
  uy: number,
  metEast: number,
  metNorth: number,
  past: number,
  wanted: number,
  scratch: Crossing,
  verdict: Verdict,
): void {
  const sd = Math.sqrt(square(belief.sdAlong(ux, uy)) + 25);
  // where it believes it crossed the line, `past` metres ago
  const x = belief.x - past * ux;
  const y = belief.y - past * uy;
  verdict.line = -1;
  verdict.clash = Number.POSITIVE_INFINITY;
  verdict.crossing.found = false;
  let best = unmapped(world, family);
  for (const i of candidates) {
    const line = world.lines[i]!;
    if (line.family !== family) continue;
    crossingOf(world, i, x, y, ux, uy, REACH_SD * (sd + line.sd), scratch);
    if (!scratch.found) continue;
    const spread = Math.sqrt(sd * sd + line.sd * line.sd);
    const z = scratch.ahead / spread;
    if (i === wanted) verdict.clash = Math.abs(z);
    const turn = angleBetween(scratch.dx, scratch.dy, metEast, metNorth);
    const a = turn / ANGLE_SD;
    const likelihood = (line.exists * exp(-0.5 * (z * z + a * a))) / spread;
    if (likelihood > best) {
      best = likelihood;
      verdict.line = i;
      copy(scratch, verdict.crossing);
    }
  }
}

/** Beyond this many SD a crossing explains nothing: exp(−32) against what is unmapped. */
const REACH_SD = 8;

/** +1 or −1 when a box lies wholly to the right or the left of the track through the origin along (ux, uy), else 0. */
function sideOf(west: number, south: number, east: number, north: number, ux: number, uy: number): number {
  const least = Math.min(west * uy, east * uy) - Math.max(south * ux, north * ux);
  if (least > 0) return 1;
  return Math.max(west * uy, east * uy) - Math.min(south * ux, north * ux) < 0 ? -1 : 0;
}

/** SD of the angle at which a line is judged to run: bends, drawing and a hurried look. Common practice, no source. */
const ANGLE_SD = 0.35;

/** Length of a trod between two places worth noting, metres, and the mean of |sin| over directions: how often one is crossed. */
const TROD_METRES = 200;
const MEAN_SINE = 0.6366;

/** Density per metre of meeting something of this family that no map shows. */
function unmapped(world: World, family: number): number {
  const perMetre =
    family === STREAM
      ? (world.rivuletsPer100 * world.rivuletsAlike) / 100
      : family === WAY
        ? world.trodsPerM2 * TROD_METRES * MEAN_SINE
        : 2e-6;
  // on the scale of exp(−z²/2)/σ a density λ stands as λ·√(2π)
  return perMetre * 2.5066;
}

/** Angle between two undirected directions, unit vectors, 0..π/2. */
function angleBetween(dx: number, dy: number, east: number, north: number): number {
  const dot = Math.abs(dx * east + dy * north);
  const c = dot > 1 ? 1 : dot;
  // acos by its series is not needed: a monotone stand-in that is exact at 0 and at a right angle
  return Math.sqrt(2 * (1 - c)) * 1.1107;
}

/** Chance to take a lookalike at a clash of z SD: a^((z/2)²), a the skill's share at 2 SD. */
export function acceptance(share: number, z: number): number {
  return share <= 0 ? 0 : exp(((z * z) / 4) * ln(share));
}

function square(x: number): number {
  return x * x;
}

function copy(from: Crossing, to: Crossing): void {
  to.ahead = from.ahead;
  to.x = from.x;
  to.y = from.y;
  to.along = from.along;
  to.dx = from.dx;
  to.dy = from.dy;
  to.found = from.found;
}
