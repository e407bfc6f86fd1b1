import { distance } from '../../math/plane.ts';
import type { Leg } from '../leg.ts';
import type { Planning } from '../planning.ts';
import type { ChangeSaid } from '../words.ts';

export type ChangeKind =
  | 'aim off'
  | 'other attack point'
  | 'catching feature'
  | 'tick-off'
  | 'shorter last leg'
  | 'other technique';

/** The legs of a route with one thing changed, and what that is. */
export interface Made {
  readonly kind: ChangeKind;
  readonly said: ChangeSaid;
  readonly legs: readonly Leg[];
}

/** The legs with some of them put in the place of legs `from` to `to`; chained, the last one fine. */
export function replaced(
  planning: Planning,
  legs: readonly Leg[],
  from: number,
  to: number,
  by: readonly Leg[],
): Leg[] {
  const { target } = planning.errand;
  const all = [...legs.slice(0, from), ...by, ...legs.slice(to + 1)];
  return all.map((leg, i) => {
    const last = i === all.length - 1;
    const begin = i === 0 ? leg.from : all[i - 1]!.to;
    const path = distance(begin, leg.from) > 0 ? [begin, ...leg.path.slice(1)] : leg.path;
    const end = last ? { toFeature: target.feature.id } : {};
    return { ...leg, ...end, from: begin, path, fine: last };
  });
}

/** The leg that leads to the last sure place before the target; −1 when the route goes there in one. */
export function launchLeg(legs: readonly Leg[]): number {
  for (let i = legs.length - 2; i >= 0; i--) if (legs[i]!.toFeature !== undefined) return i;
  return -1;
}
