import { lineLength } from '../math/plane.ts';
import type { Leg, Route } from '../route/leg.ts';

/** Techniques that go both ways; the others have an end of their own and become a bearing. */
const BOTH_WAYS: ReadonlySet<string> = new Set(['handrail', 'contour', 'sight', 'timing']);

/** A route walked the other way round, its last leg to `start`. Lines are followed back, everything else is a bearing or what it was. */
export function turnedRoute(route: Route, start: string): Route {
  const legs = route.legs.map((leg, i): Leg => {
    const toFeature = i === 0 ? start : route.legs[i - 1]!.toFeature;
    const both = BOTH_WAYS.has(leg.technique);
    const metres = lineLength(leg.path);
    const line = leg.technique === 'handrail' ? leg.line : undefined;
    return {
      technique: both ? leg.technique : 'bearing',
      from: leg.to,
      to: leg.from,
      path: both ? [...leg.path].reverse() : [leg.to, leg.from],
      ticks: both
        ? [...leg.ticks].reverse().map((t) => ({ feature: t.feature, atMetres: metres - t.atMetres }))
        : [],
      fine: i === 0,
      ...(toFeature === undefined ? {} : { toFeature }),
      ...(line === undefined ? {} : { line }),
      ...(line === undefined || leg.toAlong === undefined ? {} : { fromAlong: leg.toAlong }),
      ...(line === undefined || leg.fromAlong === undefined ? {} : { toAlong: leg.fromAlong }),
    };
  });
  return { ...route, id: `${route.id}-back`, legs: legs.reverse() };
}
