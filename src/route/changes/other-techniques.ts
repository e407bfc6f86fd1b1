import type { Feature } from '../../features/feature.ts';
import { distance } from '../../math/plane.ts';
import { endgamesFrom, type Launch } from '../endgames.ts';
import type { Leg } from '../leg.ts';
import { featureById, isBlocked, type Planning } from '../planning.ts';
import { routePhrase } from '../says.ts';
import { openLeg, roundTheSlope, straightLeg } from '../straight-leg.ts';
import { launchLeg, type Made, replaced } from './made.ts';

/** The same ends by another technique: round the slope, by the clock, another endgame from the same place. */
export function otherTechniques(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.technique !== 'bearing' && leg.technique !== 'timing') return;
    const feature = leg.toFeature === undefined ? undefined : featureById(planning, leg.toFeature);
    const contour = roundTheSlope(planning, leg.from, leg.to, feature);
    if (contour) {
      made.push({
        kind: 'other technique',
        said: { is: 'slope', leg: i + 1 },
        legs: replaced(planning, legs, i, i, [contour]),
      });
    }
    const other = leg.technique === 'bearing' ? 'timing' : 'bearing';
    made.push({
      kind: 'other technique',
      said: { is: other === 'timing' ? 'clock' : 'count', leg: i + 1 },
      legs: replaced(planning, legs, i, i, [straightLeg(other, leg.from, leg.to, feature)]),
    });
  });
  return [...made, ...straightInstead(legs, planning), ...otherEndgames(legs, planning)];
}

/** A line that bends away is left for a bearing, where that is a good deal shorter and open. */
function straightInstead(legs: readonly Leg[], planning: Planning): Made[] {
  return legs.flatMap((leg, i) => {
    if (leg.technique !== 'handrail' || leg.toFeature === undefined || legs[i + 1]?.line === leg.line)
      return [];
    const feature = featureById(planning, leg.toFeature);
    if (feature === undefined || isBlocked(planning, leg.from, leg.to) || distance(leg.from, leg.to) < 40)
      return [];
    const line = planning.handrails.get(leg.line!)!.feature;
    const straight = openLeg(planning, leg.from, leg.to, feature);
    return [
      {
        kind: 'other technique' as const,
        said: { is: 'straight' as const, to: feature, line, leg: i + 1 },
        legs: replaced(planning, legs, i, i, [straight]),
      },
    ];
  });
}

function otherEndgames(legs: readonly Leg[], planning: Planning): Made[] {
  const k = launchLeg(legs);
  const { start } = planning.errand;
  const feature: Feature | null =
    k < 0 ? start.feature : (featureById(planning, legs[k]!.toFeature!) ?? null);
  const launch: Launch = { id: 'launch', at: k < 0 ? start.at : legs[k]!.to, feature };
  const now = techniquesOf(legs.slice(k + 1));
  return endgamesFrom(planning, launch)
    .filter((endgame) => techniquesOf(endgame.legs) !== now)
    .map((endgame) => ({
      kind: 'other technique' as const,
      said: {
        is: 'endgame' as const,
        from: feature,
        phrase: routePhrase(endgame.legs, planning.ground, planning.errand),
        ...stopped(planning, legs.at(-1)!, endgame.legs.at(-1)!),
      },
      legs: replaced(planning, legs, k + 1, legs.length - 1, endgame.legs),
    }));
}

/** Where a backstop is what differs. */
function stopped(planning: Planning, now: Leg, then: Leg) {
  const line = (leg: Leg) => planning.ground.byId.get(leg.catching?.line ?? '');
  if (now.catching && !then.catching) return { stops: 'without' as const, without: line(now) };
  return then.catching ? { stops: 'behind' as const, behind: line(then) } : { stops: null };
}

function techniquesOf(legs: readonly Leg[]): string {
  return legs.map((l) => `${l.technique} ${l.line ?? ''} ${l.catching?.line ?? ''}`).join(',');
}
