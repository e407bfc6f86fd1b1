import { stopsWithin } from '../math/bivariate.ts';
import { normalCdf } from '../math/normal-cdf.ts';
import { distance, length, type Point } from '../math/plane.ts';
import { pow } from '../math/portable.ts';
import { advance, atEnd, comesBy, type Progress, progressFrom, reversal } from './advance.ts';
import { knownTo, meanIn, type PlaceDoubt, rightOf, sdIn, unit } from './doubt-of-place.ts';
import { routeFigures } from './figures.ts';
import type { Leg } from './leg.ts';
import { knownShare, type Planning, seenWithin, spotsNear } from './planning.ts';
import { placeOfSpot } from './stretch-legs.ts';

/*
 * A cheap guess at what a plan is worth, to rank hundreds of them before any is simulated. Closed forms of single legs, chained
 * by what is known at each confirmed place. It knows nothing of reversals that go wrong, of fixes from landmarks, of late
 * parties: good enough to choose what is worth simulating, never shown as a result.
 */
export interface Estimate {
  /** Minutes of a party that makes no error, and of the expected search. */
  readonly minutes: number;
  /** Guessed share of parties that find the target. */
  readonly share: number;
}

export function estimateOf(legs: readonly Leg[], planning: Planning): Estimate {
  const { start, party, limits } = planning.errand;
  const known = knownTo(start.feature ? start.feature.doubt.positionMetres : 1);
  const walked = routeFigures(legs, planning.walking).minutes;
  const { turnRoundMinutes, searchMinutes } = limits;
  // Nobody searches past the turn-round time.
  const left = turnRoundMinutes === null ? searchMinutes : Math.max(0, turnRoundMinutes - walked);
  const { share, extraMinutes } = estimateFrom(planning, legs, known, Math.min(searchMinutes, left));
  const minutes = walked + extraMinutes;
  if (limits.minutes === null) return { minutes, share };
  const inTime = normalCdf((limits.minutes - minutes) / (party.set.speedShare * minutes + 1), 0, 1);
  return { minutes, share: share * inTime };
}

/** Legs to the target, begun with a given doubt of the place. */
export function estimateFrom(
  planning: Planning,
  legs: readonly Leg[],
  doubt: PlaceDoubt,
  searchMinutes = planning.errand.limits.searchMinutes,
): Progress {
  const state = progressFrom(doubt);
  legs.forEach((leg, i) => {
    advance(leg, state, planning);
    if (i === legs.length - 1) atTarget(leg, state, planning, searchMinutes);
    else atEnd(leg, legs[i + 1], state, planning);
  });
  return state;
}

/** The end of the last leg: come by and know it, or search for it within the allowance. */
function atTarget(leg: Leg, state: Progress, planning: Planning, searchMinutes: number): void {
  const { target, limits, party } = planning.errand;
  const reach = seenWithin(planning, target.feature);
  const sd = target.feature.doubt.positionMetres;
  const passes = comesBy(leg, target.at, reach, sd, state);
  reversal(leg, state, planning);
  const people = Math.max(1, Math.min(limits.searchPeopleAbreast, party.people));
  // Expanding square: t = .9·4R²/(W·v) for a miss by R, common practice.
  const searched = Math.sqrt((2 * reach * people * party.set.searchMetresPerMinute * searchMinutes) / 3.6);
  const u = unit(leg.path[leg.path.length - 2] ?? leg.from, leg.to);
  const r = rightOf(u);
  const across = length(sdIn(state.doubt, r), sd);
  const along = length(sdIn(state.doubt, u), sd);
  const off: Point = [leg.to[0] - target.at[0], leg.to[1] - target.at[1]];
  const found = stopsWithin(
    Math.max(reach, searched),
    across,
    along,
    meanIn(state.doubt, r) + off[0] * r[0] + off[1] * r[1],
    meanIn(state.doubt, u) + off[0] * u[0] + off[1] * u[1],
  );
  state.share *= Math.max(passes, found) * knownShare(planning, target.feature);
  state.share *= 1 - takenForIt(state.doubt, planning);
  state.extraMinutes += (1 - passes) * searchMinutes * 0.6;
}

/** Chance to declare a like thing near the target: a(z) by its distance in SDs of what is known. */
function takenForIt(doubt: PlaceDoubt, planning: Planning): number {
  const { target, party } = planning.errand;
  const sd = Math.max(10, Math.sqrt((doubt.ee + doubt.nn) / 2));
  let most = 0;
  for (const like of spotsNear(planning, target.at, 3 * sd)) {
    if (like.id === target.feature.id || like.kind !== target.feature.kind) continue;
    const z = distance(placeOfSpot(like), target.at) / sd;
    most = Math.max(most, pow(party.set.lookalikeShare, (z / 2) * (z / 2)) * like.doubt.exists);
  }
  return 0.5 * most;
}
