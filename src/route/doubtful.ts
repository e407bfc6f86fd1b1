import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import type { Errand } from './drawn.ts';
import type { Route } from './leg.ts';

/** Features that a route leans on and that may not be there: what is worth a look, or a call, beforehand. Most doubtful first. */
export function doubtfulOn(route: Route, errand: Errand, ground: MappedGround): Feature[] {
  const ids = new Set<string>();
  for (const leg of route.legs) {
    for (const id of [leg.line, leg.toFeature, leg.catching?.line, ...leg.ticks.map((t) => t.feature)]) {
      if (id !== undefined && id !== errand.target.feature.id) ids.add(id);
    }
  }
  return [...ids]
    .map((id) => ground.byId.get(id))
    .filter(
      (f): f is Feature =>
        f !== undefined && f.origin !== 'derived' && f.doubt.exists > 0 && f.doubt.exists < 1,
    )
    .sort((a, b) => a.doubt.exists - b.doubt.exists || (a.id < b.id ? -1 : 1));
}
