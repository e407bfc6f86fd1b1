import type { Plan } from './choose.ts';
import { featureById, type Planning } from './planning.ts';
import { routeNames } from './route-names.ts';
import { routeWords } from './words.ts';

/** Short names that tell the picked plans apart. */
export function named(planning: Planning, plans: readonly Plan[]): Plan[] {
  const names = routeNames(
    plans.map((plan) => plan.legs),
    (id) => featureById(planning, id),
    routeWords(planning.errand.reading),
  );
  return plans.map((plan, i) => ({ ...plan, name: names[i]! }));
}
