import type { MappedGround } from '../cost/mapped-ground.ts';
import { crossingsOf } from '../features/crossings.ts';
import type { Feature } from '../features/feature.ts';
import { distance, lineBetween, lineLength, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import type { Leg } from './leg.ts';
import { lineOf, lowerEnd } from './map-line.ts';

const COMPASS: Readonly<Record<string, Point>> = {
  north: [0, 1],
  'north-east': [Math.SQRT1_2, Math.SQRT1_2],
  east: [1, 0],
  'south-east': [Math.SQRT1_2, -Math.SQRT1_2],
  south: [0, -1],
  'south-west': [-Math.SQRT1_2, -Math.SQRT1_2],
  west: [-1, 0],
  'north-west': [-Math.SQRT1_2, Math.SQRT1_2],
};
const SHORT: Readonly<Record<string, string>> = {
  n: 'north',
  ne: 'north-east',
  e: 'east',
  se: 'south-east',
  s: 'south',
  sw: 'south-west',
  w: 'west',
  nw: 'north-west',
};
/** Words for the ends of a line itself. */
export const LINE_ENDS = ['mouth', 'source', 'downstream', 'upstream', 'downhill', 'uphill', 'start', 'end'];

/** Unit vector of a compass word ("north-east", "NE", "north east"); null for any other word. */
export function compassWord(word: string): Point | null {
  const plain = word.toLowerCase().replace(/[ _]/g, '-');
  return COMPASS[plain] ?? COMPASS[SHORT[plain] ?? ''] ?? COMPASS[dashed(plain)] ?? null;
}

function dashed(word: string): string {
  return word.replace(/^(north|south)-?(east|west)$/, '$1-$2');
}

/**
 * Which way along a line a word means from the place `along`: +1 with its vertices, −1 against them, 0 when the word is neither
 * an end nor a compass direction. A compass word is judged by where one stands after `reach` metres either way.
 */
export function senseOf(
  word: string,
  ground: MappedGround,
  line: readonly Point[],
  along: number,
  reach: number,
): -1 | 0 | 1 {
  const low = lowerEnd(ground, line) > 0 ? 1 : -1;
  switch (word) {
    case 'end':
      return 1;
    case 'start':
      return -1;
    case 'mouth':
    case 'downstream':
    case 'downhill':
      return low;
    case 'source':
    case 'upstream':
    case 'uphill':
      return low === 1 ? -1 : 1;
  }
  const way = compassWord(word);
  if (!way) return 0;
  const here = pointAlong(line, along);
  const on = pointAlong(line, along + reach);
  const back = pointAlong(line, Math.max(0, along - reach));
  const forward = (on[0] - here[0]) * way[0] + (on[1] - here[1]) * way[1];
  const backward = (back[0] - here[0]) * way[0] + (back[1] - here[1]) * way[1];
  return forward >= backward ? 1 : -1;
}

/** A leg along a line from where it is joined (nearest to `from`) to `toAlong`. */
export function handrailLeg(from: Point, feature: Feature, toAlong: number, confirmed?: string): Leg {
  const line = lineOf(feature)!;
  const joined = nearestOnLine(from, line);
  const part = lineBetween(line, joined.along, toAlong);
  const path = distance(from, part[0]!) < 0.5 ? [from, ...part.slice(1)] : [from, ...part];
  const to = part[part.length - 1]!;
  return {
    technique: 'handrail',
    from,
    to,
    ...(confirmed === undefined ? {} : { toFeature: confirmed }),
    path,
    line: feature.id,
    fromAlong: joined.along,
    toAlong,
    ticks: [],
    fine: false,
  };
}

/** Where two lines meet: metres along the first of the meeting nearest to `along` on the side of `sense`; null when they keep apart. */
export function meetingAlong(
  line: readonly Point[],
  other: readonly Point[],
  along: number,
  sense: -1 | 1,
  tolerance: number,
): number | null {
  let best: number | null = null;
  const consider = (at: number) => {
    const ahead = (at - along) * sense;
    if (ahead < 1) return;
    if (best === null || ahead < (best - along) * sense) best = at;
  };
  for (const at of crossingsOf(line, other)) consider(nearestOnLine(at, line).along);
  for (const end of [other[0]!, other[other.length - 1]!]) {
    const near = nearestOnLine(end, line);
    if (near.away <= tolerance) consider(near.along);
  }
  const whole = lineLength(line);
  for (const at of [0, whole]) {
    if (nearestOnLine(pointAlong(line, at), other).away <= tolerance) consider(at);
  }
  return best;
}

/** Share along a→b where it crosses c→d; null when it does not. */
export function crossingShare(a: Point, b: Point, c: Point, d: Point): number | null {
  const ux = b[0] - a[0];
  const uy = b[1] - a[1];
  const vx = d[0] - c[0];
  const vy = d[1] - c[1];
  const det = ux * vy - uy * vx;
  if (det === 0) return null;
  const wx = c[0] - a[0];
  const wy = c[1] - a[1];
  const t = (wx * vy - wy * vx) / det;
  const s = (wx * uy - wy * ux) / det;
  return t >= 0 && t <= 1 && s >= 0 && s <= 1 ? t : null;
}
