import type { MappedGround } from '../cost/mapped-ground.ts';
import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { distance, type Point } from '../math/plane.ts';
import { boxLeg, narrowestBox } from './box-leg.ts';
import { contourLine } from './contour-leg.ts';
import type { DrawnLeg, DrawnRoute, Errand } from './drawn.ts';
import { drawnAimOff } from './drawn-aim-off.ts';
import { withExtras } from './drawn-extras.ts';
import { drawnHandrail } from './drawn-handrail.ts';
import { interpretLine } from './interpret.ts';
import type { Leg, Route } from './leg.ts';
import { AT_END, pointFeatureAt, reachOf } from './leg-ends.ts';
import { type Locate, type Lookup, type Place, placeOf } from './place.ts';
import { planningOf } from './planning.ts';
import { routePhrase } from './says.ts';

/**
 * A route as drawn in the task → legs with places, chained from the start to the target. A drawn line is interpreted.
 * `locate` turns longitudes, latitudes and grid references into metres; without it they are refused.
 */
export function resolveRoute(
  drawn: DrawnRoute,
  errand: Errand,
  ground: MappedGround,
  id: string,
  locate?: Locate,
): Route {
  if (drawn.line !== undefined) return interpretLine(drawn, planningOf(ground, errand), id);
  const look: Lookup = { errand, ground, locate };
  const steps = drawn.legs ?? [];
  if (steps.length === 0) {
    throw new UserError({
      what: 'the route is empty',
      where: `route "${drawn.name}"`,
      got: 'no legs',
      expected: 'at least one leg that ends at the target',
    });
  }
  const legs: Leg[] = [];
  for (let i = 0; i < steps.length; i++) {
    const where = `route "${drawn.name}", leg ${i + 1}`;
    for (const leg of resolveStep(steps, i, legs, look, where)) legs.push(leg);
  }
  const reached = endAtTarget(legs, look, drawn.name);
  return {
    id,
    name: drawn.name,
    origin: 'drawn',
    strategy: routePhrase(reached, ground, errand),
    legs: reached,
  };
}

function resolveStep(
  steps: readonly DrawnLeg[],
  i: number,
  before: readonly Leg[],
  look: Lookup,
  where: string,
): Leg[] {
  const step = steps[i]!;
  const previous = before[before.length - 1];
  const from = previous?.to ?? look.errand.start.at;
  const made = makeLegs(steps, i, from, previous, look, where);
  const last = made.length - 1;
  made[last] = withExtras(made[last]!, step, look, where);
  return made;
}

function makeLegs(
  steps: readonly DrawnLeg[],
  i: number,
  from: Point,
  previous: Leg | undefined,
  look: Lookup,
  where: string,
): Leg[] {
  const step = steps[i]!;
  switch (step.technique) {
    case 'handrail':
      return [drawnHandrail(steps, i, from, previous, look, where)];
    case 'aim-off':
      return drawnAimOff(steps, i, from, look, where);
    case 'box':
      return [drawnBox(step, from, look, where)];
    case 'contour':
      return [drawnContour(step, from, look, where)];
    case 'bearing':
    case 'timing':
    case 'sight': {
      const place = endPlace(step, from, look, where);
      return [straight(step.technique, from, place)];
    }
  }
}

function straight(technique: 'bearing' | 'timing' | 'sight', from: Point, place: Place): Leg {
  return {
    technique,
    from,
    to: place.at,
    ...confirmedBy(place.feature),
    path: [from, place.at],
    ticks: [],
    fine: false,
  };
}

function confirmedBy(feature: Feature | null | undefined): { toFeature?: string } {
  return feature ? { toFeature: feature.id } : {};
}

/** The end of a leg that goes to a place; it must be another place than where the leg begins. */
function endPlace(step: DrawnLeg, from: Point, look: Lookup, where: string): Place {
  if (step.to === undefined) {
    throw new UserError({
      what: `a ${step.technique} leg must say where it goes`,
      where,
      got: 'no "to"',
      expected: 'to: target, { feature: id } or { at: [easting, northing] }',
    });
  }
  const place = withFeatureAt(placeOf(step.to, from, look, where), look);
  if (distance(place.at, from) < 1) {
    throw new UserError({
      what: 'this leg has no length: it ends where it begins',
      where,
      got: `[${from[0]}, ${from[1]}] to [${place.at[0]}, ${place.at[1]}]`,
      expected: 'another place',
    });
  }
  return place;
}

/** A point in the open that happens to be a mapped point feature is confirmed by it. */
function withFeatureAt(place: Place, look: Lookup): Place {
  if (place.feature) return place;
  return { at: place.at, feature: pointFeatureAt(place.at, look) };
}

function drawnContour(step: DrawnLeg, from: Point, look: Lookup, where: string): Leg {
  const place = endPlace(step, from, look, where);
  // Where the map gives no contour to follow, the plan is the straight line; the walker still holds height.
  const path = contourLine(look.ground, from, place.at) ?? [from, place.at];
  return {
    technique: 'contour',
    from,
    to: place.at,
    ...confirmedBy(place.feature),
    path,
    ticks: [],
    fine: false,
  };
}

function drawnBox(step: DrawnLeg, from: Point, look: Lookup, where: string): Leg {
  const place = endPlace(step, from, look, where);
  const sides = step.side ? [step.side] : (['left', 'right'] as const);
  const leg =
    step.metres === undefined
      ? (narrowestBox(look.ground, from, place.at, sides) ?? boxLeg(from, place.at, sides[0]!, 100))
      : boxLeg(from, place.at, sides[0]!, step.metres);
  return { ...leg, ...confirmedBy(place.feature) };
}

/** The last leg must end at the target or within sight of it; it is the fine part. */
function endAtTarget(legs: readonly Leg[], look: Lookup, name: string): Leg[] {
  const { target } = look.errand;
  const last = legs[legs.length - 1]!;
  const reach = Math.max(AT_END, reachOf(target.feature));
  const away = distance(last.to, target.at);
  if (away > reach) {
    throw new UserError({
      what: 'the route does not reach the target',
      where: `route "${name}", leg ${legs.length}`,
      got: `an end ${Math.round(away)} m from it`,
      expected: `a last leg that ends within ${Math.round(reach)} m of ${target.feature.name ?? target.feature.id}`,
    });
  }
  return [...legs.slice(0, -1), { ...last, toFeature: target.feature.id, fine: true }];
}
