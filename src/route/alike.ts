import { distance, lineLength, type Point } from '../math/plane.ts';
import type { Leg } from './leg.ts';
import { lineSteps } from './line-steps.ts';
import { featureById, type Planning } from './planning.ts';
import { routeLine } from './says.ts';
import { routeWords } from './words.ts';

/** Two lines this near each other are one, metres; and they are one plan when so much of both is. */
const BESIDE = 60;
const SAME_SHARE = 0.85;

/** The legs of a plan with places along their line, to be compared with others. */
export interface Course {
  readonly legs: readonly Leg[];
  readonly line: readonly Point[];
}

export function courseOf(legs: readonly Leg[]): Course {
  return { legs, line: sampled(legs) };
}

/** Whether two plans walk the same line with the same endgame: near-duplicates to a reader. */
export function isTwin(a: Course, b: Course): boolean {
  return sameTechniques(a.legs, b.legs) && sameLine(a.line, b.line);
}

function sampled(legs: readonly Leg[]): Point[] {
  const line = routeLine(legs);
  return lineSteps(line, Math.min(120, Math.max(4, Math.round(lineLength(line) / 40))));
}

function sameLine(a: readonly Point[], b: readonly Point[]): boolean {
  return near(a, b) >= SAME_SHARE && near(b, a) >= SAME_SHARE;
}

function near(a: readonly Point[], b: readonly Point[]): number {
  let inside = 0;
  for (const p of a) if (b.some((q) => distance(p, q) <= BESIDE)) inside++;
  return inside / a.length;
}

/** The endgame decides: its techniques and lines must agree, and so must what it sets out from. */
function sameTechniques(a: readonly Leg[], b: readonly Leg[]): boolean {
  return endKey(a) === endKey(b);
}

/** Ways to walk a straight line: a reader takes two plans that differ only in this for one. */
const STRAIGHT: readonly Leg['technique'][] = ['bearing', 'timing', 'sight'];

function endKey(legs: readonly Leg[]): string {
  return legs
    .slice(-2)
    .map((leg) => `${STRAIGHT.includes(leg.technique) ? 'straight' : leg.technique} ${leg.line ?? ''}`)
    .join(', ');
}

/** What one plan does otherwise than another, in a few words; nothing where they differ in no such thing. */
export function differenceOf(planning: Planning, kept: readonly Leg[], other: readonly Leg[]): string {
  const a = kept.findLast((l) => l.technique === 'aim-off');
  const b = other.findLast((l) => l.technique === 'aim-off');
  const aims = a && b && (a.side !== b.side || Math.abs(a.offsetMetres! - b.offsetMetres!) >= 10);
  const from = (legs: readonly Leg[]) =>
    legs.findLast((l, i) => i < legs.length - 1 && l.toFeature !== undefined)?.toFeature;
  const launch = from(other);
  const launched = launch === undefined || launch === from(kept) ? undefined : featureById(planning, launch);
  const catching = (legs: readonly Leg[]) => legs.some((l) => l.catching !== undefined);
  const last = lastStraight(other);
  return routeWords(planning.errand.reading).differs({
    ...(aims ? { aim: { metres: b.offsetMetres!, side: b.side! } } : {}),
    ...(launched ? { from: launched } : {}),
    ...(catching(other) === catching(kept) ? {} : { catching: catching(other) }),
    ...(last === lastStraight(kept) ? {} : { last }),
  });
}

/** How the last leg is walked, as far as a reader tells straight ones apart. */
function lastStraight(legs: readonly Leg[]): Leg['technique'] {
  const technique = legs.at(-1)?.technique;
  return technique === 'timing' || technique === 'sight' ? technique : 'bearing';
}
