import type { Conditions } from '../conditions/conditions.ts';
import { type Air, type DayFactors, dayFactors } from '../conditions/factors.ts';

/** A day's factors are asked for at every few metres of hundreds of plans; they are worked out once per day. */
const known = new WeakMap<Conditions, DayFactors>();

/** What holds at a height, under the mean cloud base. */
export function airAt(conditions: Conditions, height: number): Air {
  let day = known.get(conditions);
  if (day === undefined) {
    day = dayFactors(conditions);
    known.set(conditions, day);
  }
  const { cloudBase } = conditions.visibility;
  return cloudBase !== null && height > cloudBase ? day.above : day.below;
}
