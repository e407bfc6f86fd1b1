import { aimingOff } from './changes/aiming-off.ts';
import type { ChangeKind } from './changes/made.ts';
import { catchingFeatures, shorterLastLeg, tickOffs } from './changes/on-the-leg.ts';
import { otherAttackPoints } from './changes/other-attack-points.ts';
import { otherTechniques } from './changes/other-techniques.ts';
import { type Estimate, estimateOf } from './estimate.ts';
import type { Route } from './leg.ts';
import type { Planning } from './planning.ts';
import { routePhrase } from './says.ts';
import { routeWords } from './words.ts';

/** A route that differs from another in one thing. */
export interface Change {
  readonly kind: ChangeKind;
  /** "aim off 60 m to the left of the corner instead of walking straight at it". */
  readonly says: string;
  readonly route: Route;
  /** Guesses before and after; the change is judged by simulation. */
  readonly estimate: Estimate;
}

/** Changes handed on of one kind, and in all: each costs thousands of walks. */
const MOST_OF_KIND = 3;
const MOST = 12;

/**
 * Every route that one change makes of a given one: aiming off, another attack point, a catching feature, tick-offs, a shorter
 * last leg, another technique. The most promising first by closed-form estimates; whether they help is for simulation to say.
 */
export function changesOf(
  route: Route,
  planning: Planning,
  { ofKind, all }: { readonly ofKind: number; readonly all: number } = { ofKind: MOST_OF_KIND, all: MOST },
): Change[] {
  const before = estimateOf(route.legs, planning);
  const made = [
    ...aimingOff(route.legs, planning),
    ...otherAttackPoints(route.legs, planning),
    ...catchingFeatures(route.legs, planning),
    ...tickOffs(route.legs, planning),
    ...shorterLastLeg(route.legs, planning),
    ...otherTechniques(route.legs, planning),
  ];
  const words = routeWords(planning.errand.reading);
  const judged = made
    .map(({ kind, said, legs }) => ({
      kind,
      says: words.change(said),
      legs,
      estimate: estimateOf(legs, planning),
    }))
    .map((change, i) => ({ ...change, i, gain: gainOf(before, change.estimate) }))
    .filter((change) => change.estimate.share > 0.5 * before.share)
    .sort((a, b) => b.gain - a.gain || a.i - b.i);
  const counts = new Map<ChangeKind, number>();
  const kept = judged.filter(({ kind }) => {
    const count = (counts.get(kind) ?? 0) + 1;
    counts.set(kind, count);
    return count <= ofKind;
  });
  return kept.slice(0, all).map(({ kind, says, legs, estimate }, k) => ({
    kind,
    says,
    estimate,
    route: {
      ...route,
      id: `${route.id}/change-${k + 1}`,
      name: `${route.name}: ${says}`,
      strategy: routePhrase(legs, planning.ground, planning.errand),
      legs,
    },
  }));
}

/** One more in a hundred parties is worth about a minute, for the order only. */
function gainOf(before: Estimate, after: Estimate): number {
  return 100 * (after.share - before.share) - (after.minutes - before.minutes);
}
