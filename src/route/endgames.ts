import type { Feature } from '../features/feature.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { distance, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { aimOffLeg, crossingSine, defaultOffset } from './aim-off-leg.ts';
import { handrailLeg } from './handrail-leg.ts';
import { scatterOf } from './lateral.ts';
import type { Leg } from './leg.ts';
import { catchBeyond } from './on-the-way.ts';
import {
  type Handrail,
  isBlocked,
  isPathBlocked,
  linesNear,
  type Planning,
  seenWithin,
  spotsNear,
} from './planning.ts';
import { roundObstacle } from './round-obstacle.ts';
import type { Stop } from './stops.ts';
import { openLeg, roundTheSlope } from './straight-leg.ts';
import { placeOfSpot } from './stretch-legs.ts';

/** The last few legs, from a place that a party is sure of to the target. */
export interface Endgame {
  /** Id of the feature or stop it begins at, or 'start'. */
  readonly launch: string;
  readonly legs: readonly Leg[];
}

/** A place from which the endgame can begin. */
export interface Launch {
  readonly id: string;
  readonly at: Point;
  readonly feature: Feature | null;
}

/** Attack points are looked for so far from the target, metres. */
export const ATTACK_REACH = 400;
/** Lines by the target that may be walked on to: how far from it, and how far along. */
const LINE_REACH = 400;
const MOST_LINES = 12;
const ALONG_REACH = 1500;
/** A backstop lies so far behind at most, metres. */
const CATCH_REACH = 150;
/** Offsets tried when aiming off, in lateral SDs, and one in metres: the end of a stream may have moved farther than a party errs. */
const OFFSETS = [1.5, 2];
const WIDE_OFFSET = 90;
/** Least sine of the angle at which a line may be met. */
const LEAST_SINE = 0.5;
/** From so far along a line one may leave it and aim at it again, metres. */
const CUTS_A_BEND = 60;
/** A place on a line may be paced to from a stop this far along it, metres. */
const PACED_REACH = 400;

/** Every endgame from one launch: straight in, by a line beside the target, round the slope. */
export function endgamesFrom(planning: Planning, launch: Launch): Endgame[] {
  const { target } = planning.errand;
  const d = distance(launch.at, target.at);
  if (d < 1) return [];
  const found: Endgame[] = [];
  const add = (...legs: Leg[]) => {
    if (legs.every((leg) => leg.technique === 'handrail' || !isPathBlocked(planning, leg.path))) {
      found.push({ launch: launch.id, legs: fineAtEnd(planning, legs) });
    }
  };
  const straight = openLeg(planning, launch.at, target.at, target.feature);
  if (isBlocked(planning, launch.at, target.at)) {
    for (const legs of roundObstacle(planning, launch.at, target.at, target.feature)) add(...legs);
  } else {
    add(straight);
    const backstop = catchingLine(planning, straight);
    if (backstop) add({ ...straight, catching: backstop });
    const contour = roundTheSlope(planning, launch.at, target.at, target.feature);
    if (contour) add(contour);
  }
  for (const line of linesByTarget(planning)) {
    for (const legs of byLine(planning, launch.at, line)) add(...legs);
  }
  return found;
}

/** Lines near the target, the nearest first; a dozen are enough to choose from. */
export function linesByTarget(planning: Planning): Handrail[] {
  const { target } = planning.errand;
  return linesNear(planning, target.at, LINE_REACH)
    .map((line) => ({ line, away: nearestOnLine(target.at, line.points).away / line.feature.doubt.exists }))
    .sort((a, b) => a.away - b.away || (a.line.feature.id < b.line.feature.id ? -1 : 1))
    .slice(0, MOST_LINES)
    .map(({ line }) => line);
}

/** On to a line off the wanted place and along it: to the target on it, or to the place abreast of the target and across. */
function byLine(planning: Planning, from: Point, line: Handrail): Leg[][] {
  const { target } = planning.errand;
  const near = nearestOnLine(target.at, line.points);
  const at = pointAlong(line.points, near.along);
  const d = distance(from, at);
  // A walk that sets off on the line itself is a handrail, not an aim-off, unless it cuts a long bend.
  const leaves = nearestOnLine(from, line.points).away < 40;
  if (d < 40 || (d < CUTS_A_BEND && leaves)) return [];
  // whoever leaves a line to cut its bend knows on which side it lies, however flat they meet it
  if (!leaves && crossingSine(from, line.points, near.along) < LEAST_SINE) return [];
  const reach = seenWithin(planning, target.feature);
  const { lateral } = scatterOf(planning.ground, planning.errand, from, at);
  const found: Leg[][] = [];
  if (near.away > reach + 10) return found;
  for (const side of ['left', 'right'] as const) {
    for (const offsetMetres of offsetsFor(lateral)) {
      const aim = aimOffLeg({ from, line: line.feature, wantedAlong: near.along, side, offsetMetres });
      if (Math.abs(aim.offsetMetres! - offsetMetres) > 5) continue;
      found.push([aim, handrailLeg(aim.to, line.feature, near.along)]);
    }
  }
  return found;
}

/** Offsets worth trying for a lateral SD, metres. */
export function offsetsFor(lateral: number): Set<number> {
  return new Set([...OFFSETS.map((sds) => defaultOffset(lateral, sds)), WIDE_OFFSET]);
}

/** Along the line that the target stands on or beside, from a stop of it; and paced along it to the place abreast of the target. */
export function endgamesAlong(planning: Planning, line: Handrail, stops: readonly Stop[]): Endgame[] {
  const { target } = planning.errand;
  const near = nearestOnLine(target.at, line.points);
  const reach = seenWithin(planning, target.feature);
  const found: Endgame[] = [];
  for (const stop of stops) {
    const along = Math.abs(stop.along - near.along);
    if ((stop.feature === null && !stop.end) || along < 30 || along > ALONG_REACH) continue;
    const handrail = handrailLeg(stop.at, line.feature, near.along);
    if (near.away <= reach + 10) {
      found.push({ launch: stop.id, legs: fineAtEnd(planning, [handrail]) });
      continue;
    }
    if (along > PACED_REACH || near.away > LINE_REACH) continue;
    const across = openLeg(planning, handrail.to, target.at, target.feature);
    if (isBlocked(planning, handrail.to, target.at)) continue;
    found.push({ launch: stop.id, legs: fineAtEnd(planning, [handrail, across]) });
    const backstop = catchingLine(planning, across);
    if (backstop) {
      found.push({
        launch: stop.id,
        legs: fineAtEnd(planning, [handrail, { ...across, catching: backstop }]),
      });
    }
  }
  return found;
}

/** The best backstop behind the end of a leg: a line met nearly square within 150 m, the surest first, then the nearest. */
export function catchingLine(planning: Planning, leg: Leg): { line: string; beyondMetres: number } | null {
  let best: { line: string; beyondMetres: number } | null = null;
  let worth = 0;
  for (const line of linesNear(planning, leg.to, CATCH_REACH)) {
    if (lineFamily(line.feature.kind) === 'form' && line.feature.kind !== 'forest-edge') continue;
    const beyondMetres = catchBeyond(leg.path, line.feature);
    if (beyondMetres === null || beyondMetres < 5 || beyondMetres > CATCH_REACH) continue;
    const near = nearestOnLine(pointBeyond(leg, beyondMetres), line.points);
    if (crossingSine(leg.path[leg.path.length - 2]!, line.points, near.along) < Math.SQRT1_2) continue;
    const value = line.feature.doubt.exists * (1 - beyondMetres / 400);
    if (value <= worth) continue;
    best = { line: line.feature.id, beyondMetres };
    worth = value;
  }
  return best;
}

function pointBeyond(leg: Leg, metres: number): Point {
  const a = leg.path[leg.path.length - 2]!;
  const d = distance(a, leg.to) || 1;
  return [leg.to[0] + ((leg.to[0] - a[0]) / d) * metres, leg.to[1] + ((leg.to[1] - a[1]) / d) * metres];
}

/** The last leg of an endgame is walked with care and ends at the target. */
function fineAtEnd(planning: Planning, legs: readonly Leg[]): Leg[] {
  const { target } = planning.errand;
  return legs.map((leg, i) =>
    i === legs.length - 1 ? { ...leg, toFeature: target.feature.id, fine: true } : leg,
  );
}

/** Features near the target that a party would know: the attack points, best first. */
export function attackPoints(planning: Planning, most: number): Feature[] {
  const { target } = planning.errand;
  const spots = spotsNear(planning, target.at, ATTACK_REACH).filter(
    (f) => f.id !== target.feature.id && f.doubt.exists >= 0.5 && f.kind !== target.feature.kind,
  );
  const worth = (f: Feature) =>
    (f.doubt.exists * Math.min(60, 10 + seenWithin(planning, f))) /
    (150 + distance(placeOfSpot(f), target.at));
  return spots
    .map((f) => ({ f, w: worth(f) }))
    .sort((a, b) => b.w - a.w || (a.f.id < b.f.id ? -1 : 1))
    .slice(0, most)
    .map(({ f }) => f);
}
