import type { Feature } from '../../features/feature.ts';
import { distance, nearestOnLine, type Point } from '../../math/plane.ts';
import { aimOffLeg, crossingSine, defaultOffset } from '../aim-off-leg.ts';
import { knownTo } from '../doubt-of-place.ts';
import { attackPoints, endgamesFrom } from '../endgames.ts';
import { handrailLeg } from '../handrail-leg.ts';
import { scatterOf } from '../lateral.ts';
import type { Leg } from '../leg.ts';
import { KNOWN, throughPiece } from '../pieces.ts';
import { isBlocked, linesNear, type Planning } from '../planning.ts';
import { openLeg } from '../straight-leg.ts';
import { placeOfSpot } from '../stretch-legs.ts';
import { launchLeg, type Made, replaced } from './made.ts';

/** By another place near the target, each way to it with each way on from it. */
export function otherAttackPoints(legs: readonly Leg[], planning: Planning): Made[] {
  const { target, start } = planning.errand;
  const made: Made[] = [];
  const k = launchLeg(legs);
  // What comes before the launch stays, but for an open leg that would lead to it.
  const keep = k < 0 ? 0 : legs[k]!.technique === 'handrail' ? k + 1 : k;
  const from = keep === 0 ? start.at : legs[keep - 1]!.to;
  const now = k < 0 ? undefined : legs[k]!.toFeature;
  for (const spot of attackPoints(planning, 12)) {
    const at = placeOfSpot(spot);
    if (spot.id === now || distance(from, at) < 40) continue;
    const ends = endingsFrom(planning, spot, at);
    for (const to of waysTo(planning, from, spot, at)) {
      for (const end of ends) {
        made.push({
          kind: 'other attack point',
          said: {
            is: 'attack point',
            first: now === undefined,
            spot,
            metres: distance(at, target.at),
            ...byLines(planning, to, end),
          },
          legs: replaced(planning, legs, keep, legs.length - 1, [...to, ...end]),
        });
      }
    }
  }
  return made;
}

/** Straight to an attack point; and on to each line that it stands on, to either side of it, and along that. */
function waysTo(planning: Planning, from: Point, spot: Feature, at: Point): Leg[][] {
  const ways: Leg[][] = isBlocked(planning, from, at) ? [] : [[openLeg(planning, from, at, spot)]];
  for (const line of linesNear(planning, at, 15)) {
    const { along } = nearestOnLine(at, line.points);
    if (nearestOnLine(from, line.points).away < 40 || crossingSine(from, line.points, along) < 0.5) continue;
    const { lateral } = scatterOf(planning.ground, planning.errand, from, at);
    for (const side of ['left', 'right'] as const) {
      const offsetMetres = defaultOffset(lateral);
      const aim = aimOffLeg({ from, line: line.feature, wantedAlong: along, side, offsetMetres });
      if (Math.abs(aim.offsetMetres! - offsetMetres) > 5 || isBlocked(planning, aim.from, aim.to)) continue;
      ways.push([aim, handrailLeg(aim.to, line.feature, along, spot.id)]);
    }
  }
  return ways;
}

/** From an attack point straight to the target, and by the endgame that is surest by its estimate. */
function endingsFrom(planning: Planning, spot: Feature, at: Point): (readonly Leg[])[] {
  const { target } = planning.errand;
  const straight = isBlocked(planning, at, target.at)
    ? []
    : [[openLeg(planning, at, target.at, target.feature)]];
  let surest: readonly Leg[] | null = null;
  let most = 0;
  for (const { legs } of endgamesFrom(planning, { id: spot.id, at, feature: spot })) {
    const { share } = throughPiece(planning, legs, true, knownTo(KNOWN));
    if (legs.length < 2 || share <= most) continue;
    most = share;
    surest = legs;
  }
  return surest === null ? straight : [...straight, surest];
}

/** The lines on to which one aims off before and after an attack point: where they are what the change is about. */
function byLines(planning: Planning, to: readonly Leg[], end: readonly Leg[]) {
  const aimed = (legs: readonly Leg[]) => {
    const line = planning.handrails.get(legs.length > 1 ? (legs[0]!.line ?? '') : '');
    const side = legs[0]?.side;
    return line && side && { line: line.feature, side };
  };
  const before = aimed(to);
  const after = aimed(end);
  return { ...(before ? { before } : {}), ...(after ? { after } : {}) };
}
