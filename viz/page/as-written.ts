import type { Point } from '../../src/math/plane.ts';
import type { DrawnLeg, PlaceName } from '../../src/route/drawn.ts';
import type { Leg, Route } from '../../src/route/leg.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { Understood } from './messages.ts';

type WrittenRoute = NonNullable<WrittenTask['routes']>[number];

/** Planned legs as a task file writes them, each with the place it goes to. */
export function legsAsWritten(legs: readonly Leg[], targetId: string): DrawnLeg[] {
  return legs.map((leg, i) => {
    const last = i === legs.length - 1;
    const to: PlaceName = last || leg.toFeature === targetId ? 'target' : placeOf(leg);
    switch (leg.technique) {
      case 'handrail':
        return { technique: 'handrail', along: leg.line!, to };
      case 'aim-off':
        return {
          technique: 'aim-off',
          line: leg.line!,
          side: leg.side!,
          metres: Math.round(leg.offsetMetres ?? 0),
          ...(leg.wanted === undefined ? {} : { to: { at: leg.wanted } }),
        };
      default:
        return { technique: leg.technique, to };
    }
  });
}

function placeOf(leg: Leg): PlaceName {
  return leg.toFeature === undefined ? { at: leg.to } : { feature: leg.toFeature };
}

/** Where the written legs of a drawn route end: aiming off is two planned legs unless the next one follows the line. */
export function understand(written: WrittenRoute, route: Route): Understood {
  const legs = written.legs ?? [];
  const ends: Point[] = [];
  const counts: number[] = [];
  let k = 0;
  legs.forEach((leg, i) => {
    const next = legs[i + 1];
    const planned = route.legs[k];
    const follows = route.legs[k + 1];
    const goesOn = next?.technique === 'handrail' && (next.along ?? next.line) === planned?.line;
    const both =
      leg.technique === 'aim-off' &&
      !goesOn &&
      follows?.technique === 'handrail' &&
      follows.line === planned?.line;
    const count = both ? 2 : 1;
    const end = route.legs[Math.min(route.legs.length, k + count) - 1];
    counts.push(count);
    ends.push(end?.to ?? [0, 0]);
    k += count;
  });
  return { name: written.name, ends, legs: legs as readonly DrawnLeg[], counts };
}
