import type { Feature } from '../features/feature.ts';
import { distance, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { joinLeg } from './aim-off-leg.ts';
import { handrailLeg, meetingAlong } from './handrail-leg.ts';
import type { Leg } from './leg.ts';
import { simplified } from './line-steps.ts';
import { heightAt } from './map-line.ts';
import type { Stretch } from './match-lines.ts';
import { type Handrail, isBlocked, type Planning, spotsNear } from './planning.ts';
import { openLeg, roundTheSlope } from './straight-leg.ts';

export interface StretchOptions {
  /** How far a straight leg may leave the line it stands for, metres. */
  readonly tolerance: number;
  /** A bend this near a point feature is moved to it, metres. */
  readonly snap: number;
}

/** Metres between two lines, or a line and where the party is, that need no leg of their own. */
const TOUCH = 30;
/** A stretch of line at least so long is joined as a line to be hit, not as a place. */
const LINE_TO_HIT = 60;
/** Heights of an open stretch that differ by less are a walk round the slope, metres. */
const LEVEL = 8;

/**
 * Stretches of a line, on mapped lines and in the open, as legs from the start to the target. Ends on lines are moved to the place
 * where the lines meet, bends in the open to a feature close by; nothing is left unchained.
 */
export function legsOfStretches(
  planning: Planning,
  stretches: readonly Stretch[],
  options: StretchOptions,
): Leg[] {
  const { errand } = planning;
  const legs: Leg[] = [];
  let at: Point = errand.start.at;
  const add = (leg: Leg) => {
    if (distance(leg.from, leg.to) < 1 && leg.technique !== 'handrail') return;
    legs.push(leg);
    at = leg.to;
  };
  stretches.forEach((stretch, i) => {
    const next = stretches[i + 1];
    if (stretch.handrail === null) {
      const bends = openBends(planning, at, stretch, next, options);
      for (const leg of bends) add(leg);
      return;
    }
    const line = stretch.handrail;
    const ends = lineEnd(planning, line, stretch, next, options.snap);
    const joined = nearestOnLine(at, line.points);
    if (joined.away > TOUCH) {
      add(approach(planning, at, line, stretch.fromAlong, ends.along));
    }
    const leg = handrailLeg(at, line.feature, ends.along, ends.feature?.id);
    if (Math.abs(leg.toAlong! - leg.fromAlong!) >= 1) add(leg);
  });
  return finished(planning, legs, at);
}

/** Where a stretch along a line ends: where it meets the next line, at a place of the network or a feature close by, else as drawn. */
function lineEnd(
  planning: Planning,
  line: Handrail,
  stretch: Stretch,
  next: Stretch | undefined,
  snap: number,
): { along: number; feature: Feature | null } {
  const { fromAlong, toAlong } = stretch;
  const sense = toAlong >= fromAlong ? 1 : -1;
  const { target } = planning.errand;
  if (!next) {
    const near = nearestOnLine(target.at, line.points);
    if (near.away <= 2 * TOUCH) return { along: near.along, feature: null };
  }
  let along = toAlong;
  if (next?.handrail && next.handrail !== line) {
    const back = Math.max(0, Math.min(line.metres, toAlong - sense * 100));
    const meeting = meetingAlong(line.points, next.handrail.points, back, sense, TOUCH);
    if (meeting !== null && Math.abs(meeting - toAlong) <= 200) along = meeting;
  }
  const end = pointAlong(line.points, along);
  const spot = nearestSpot(planning, end, along === toAlong ? snap : TOUCH);
  if (!spot) return { along, feature: null };
  const on = nearestOnLine(placeOfSpot(spot), line.points);
  // A feature beside the line confirms the end; it does not move it back over the stretch's own beginning.
  if ((on.along - fromAlong) * sense < 1) return { along, feature: null };
  return { along: on.along, feature: spot };
}

/** A walk on to a line that is then followed: to be hit anywhere short of its end. */
function approach(planning: Planning, from: Point, line: Handrail, joinAlong: number, endAlong: number): Leg {
  if (Math.abs(endAlong - joinAlong) >= LINE_TO_HIT) return joinLeg(from, line.feature, joinAlong, endAlong);
  const to = pointAlong(line.points, joinAlong);
  return openLeg(planning, from, to);
}

interface Bend {
  readonly at: Point;
  readonly spot: Feature | null;
}

/** Straight legs along an open stretch. The last one before a line is the approach to it. */
function openBends(
  planning: Planning,
  from: Point,
  stretch: Stretch,
  next: Stretch | undefined,
  options: StretchOptions,
): Leg[] {
  const { target } = planning.errand;
  const legs: Leg[] = [];
  let at = from;
  for (const bend of bendsOf(planning, from, stretch.points, options)) {
    if (distance(at, bend.at) < 1) continue;
    legs.push(openLeg(planning, at, bend.at, bend.spot ?? undefined));
    at = bend.at;
  }
  if (next?.handrail) legs.push(approach(planning, at, next.handrail, next.fromAlong, next.toAlong));
  else if (!next && distance(at, target.at) >= 1) {
    legs.push(openLeg(planning, at, target.at, target.feature));
  }
  return contouredInstead(planning, stretch, legs) ?? legs;
}

/** Bends between the ends of an open stretch: moved to a feature that the line passes close by, and left out where they say nothing. */
function bendsOf(planning: Planning, from: Point, points: readonly Point[], options: StretchOptions): Bend[] {
  const { tolerance, snap } = options;
  const { target } = planning.errand;
  const bends: Bend[] = clearBends(planning, points, tolerance).map((at) => {
    // A hand that turns at a feature seldom turns just there: the line must come close, the bend need not.
    const spot = nearestSpot(planning, at, 2.5 * snap, (p) => nearestOnLine(p, points).away <= snap);
    return spot && spot.id !== target.feature.id ? { at: placeOfSpot(spot), spot } : { at, spot: null };
  });
  const last = bends[bends.length - 1]!.at;
  const kept: Bend[] = [];
  for (let i = 1; i < bends.length - 1; i++) {
    const bend = bends[i]!;
    const before = kept[kept.length - 1];
    if (bend.spot && bend.spot === before?.spot) continue;
    kept.push(bend);
  }
  // Bends without a feature go first where the way is straight enough, and open, without them.
  for (let i = kept.length - 1; i >= 0; i--) {
    const a = kept[i - 1]?.at ?? from;
    const b = kept[i + 1]?.at ?? last;
    const { at, spot } = kept[i]!;
    const off = nearestOnLine(at, [a, b]).away;
    const near = Math.min(distance(a, at), distance(at, b)) < 2 * tolerance;
    if (spot === null && off < (near ? 2 : 1.5) * tolerance && !isBlocked(planning, a, b)) {
      kept.splice(i, 1);
    }
  }
  return kept;
}

/** As few bends as the tolerance allows; more where a straight walk would enter closed ground that the line goes round. */
function clearBends(planning: Planning, points: readonly Point[], tolerance: number): Point[] {
  const bends = simplified(points, tolerance);
  const clear: Point[] = [bends[0]!];
  let from = 0;
  for (let i = 1; i < bends.length; i++) {
    const to = points.indexOf(bends[i]!, from + 1);
    if (to > from) {
      bendAside(planning, points, from, to, clear);
      from = to;
    }
    clear.push(bends[i]!);
  }
  return clear;
}

/** Bends of the line between two of its vertices, the farthest aside first, until no straight walk is closed. */
function bendAside(
  planning: Planning,
  points: readonly Point[],
  from: number,
  to: number,
  bends: Point[],
): void {
  const a = points[from]!;
  const b = points[to]!;
  if (to - from < 2 || !isBlocked(planning, a, b)) return;
  let farthest = (from + to) >> 1;
  let most = 0;
  for (let k = from + 1; k < to; k++) {
    const { away } = nearestOnLine(points[k]!, [a, b]);
    if (away > most) {
      most = away;
      farthest = k;
    }
  }
  bendAside(planning, points, from, farthest, bends);
  bends.push(points[farthest]!);
  bendAside(planning, points, farthest, to, bends);
}

/** Several straight legs that keep their height are one walk round the slope. */
function contouredInstead(planning: Planning, stretch: Stretch, legs: readonly Leg[]): Leg[] | null {
  const first = legs[0];
  const last = legs[legs.length - 1];
  if (legs.length < 2 || !first || !last || last.technique === 'aim-off') return null;
  if (legs.slice(0, -1).some((leg) => leg.toFeature !== undefined)) return null;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const p of stretch.points) {
    const z = heightAt(planning.ground, p);
    low = Math.min(low, z);
    high = Math.max(high, z);
  }
  if (!(high - low <= 2 * LEVEL)) return null;
  const feature = last.toFeature === undefined ? undefined : planning.ground.byId.get(last.toFeature);
  const leg = roundTheSlope(planning, first.from, last.to, feature);
  return leg ? [leg] : null;
}

/** The point feature nearest to a place that a party would know when it stands there. */
export function nearestSpot(
  planning: Planning,
  at: Point,
  range: number,
  also: (place: Point) => boolean = () => true,
): Feature | null {
  let best: Feature | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const spot of spotsNear(planning, at, range)) {
    const away = distance(placeOfSpot(spot), at);
    if (away >= least || spot.doubt.exists < 0.5 || !also(placeOfSpot(spot))) continue;
    best = spot;
    least = away;
  }
  return best;
}

export function placeOfSpot(spot: Feature): Point {
  const g = spot.geometry;
  return g.type === 'point' ? g.at : [0, 0];
}

/** The last leg ends at the target, with a leg of its own where the line stopped short. */
export function finished(planning: Planning, legs: readonly Leg[], at: Point): Leg[] {
  const { target } = planning.errand;
  const all = [...legs];
  if (distance(at, target.at) > TOUCH) all.push(openLeg(planning, at, target.at, target.feature));
  const last = all[all.length - 1];
  if (!last) return all;
  return [...all.slice(0, -1), { ...last, toFeature: target.feature.id, fine: true }];
}
