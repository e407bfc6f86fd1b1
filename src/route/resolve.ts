import type { MappedGround } from '../cost/mapped-ground.ts';
import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { distance, lineLength, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { aimOffLeg, alongNearest, defaultOffset, driftSide } from './aim-off-leg.ts';
import { boxLeg, narrowestBox } from './box-leg.ts';
import { contourLine } from './contour-leg.ts';
import type { DrawnLeg, DrawnRoute, Errand } from './drawn.ts';
import { handrailLeg, LINE_ENDS, meetingAlong, senseOf } from './handrail-leg.ts';
import { interpretLine } from './interpret.ts';
import { legGround, scatterOf } from './lateral.ts';
import type { Leg, Route } from './leg.ts';
import { awayFrom, lineOf } from './map-line.ts';
import { catchBeyond, FURTHEST_CATCH, metAt } from './on-the-way.ts';
import { featureOf, type Locate, type Lookup, type Place, placeOf } from './place.ts';
import { planningOf } from './planning.ts';
import { routePhrase } from './says.ts';

/** How far a leg may begin from the line it follows, metres, or three SD of the line's place where that is more. */
const JOIN = 30;
/** A named feature beyond this from the line is not "on" it, metres. */
const BESIDE = 200;
/** A mapped point within this of a leg's end confirms it, metres. */
const AT_END = 15;
/** Slack of a given length that overshoots a line's end, metres. */
const OVER = 25;

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

function pointFeatureAt(at: Point, look: Lookup): Feature | null {
  const { target } = look.errand;
  let best: Feature | null = distance(target.at, at) <= 1 ? target.feature : null;
  let least = AT_END;
  if (best) return best;
  for (const feature of look.ground.features) {
    if (feature.geometry.type !== 'point') continue;
    const away = distance(feature.geometry.at, at);
    if (away > least) continue;
    least = away;
    best = feature;
  }
  return best;
}

function followed(
  id: string | undefined,
  word: 'along' | 'line',
  step: DrawnLeg,
  look: Lookup,
  where: string,
): Feature {
  if (id === undefined) {
    throw new UserError({
      what: `a${word === 'line' ? 'n' : ''} ${step.technique} leg must name its line`,
      where,
      got: `no "${word}"`,
      expected: `${word}: the id of a line feature`,
    });
  }
  const feature = featureOf(look.ground, id, where);
  if (lineOf(feature)) return feature;
  throw new UserError({
    what: 'this feature is no line and cannot be followed',
    where,
    got: `"${id}", a ${feature.kind}`,
    expected: 'a wall, stream, path or another line',
  });
}

function drawnHandrail(
  steps: readonly DrawnLeg[],
  i: number,
  from: Point,
  previous: Leg | undefined,
  look: Lookup,
  where: string,
): Leg {
  const step = steps[i]!;
  const feature = followed(step.along ?? step.line, 'along', step, look, where);
  const line = lineOf(feature)!;
  const whole = lineLength(line);
  const joined = nearestOnLine(from, line);
  const slack = Math.max(JOIN, 3 * feature.doubt.positionMetres);
  if (joined.away > slack) {
    throw new UserError({
      what: `this leg does not begin at ${feature.id}`,
      where,
      got: `${Math.round(joined.away)} m away from it`,
      expected: `a start within ${Math.round(slack)} m of the line; put a leg to it before this one`,
    });
  }

  // A place to go to settles everything; `metres` then has nothing to say.
  const named = step.to ?? placeName(step.towards, look);
  if (named !== undefined) {
    const place = placeOf(named, from, look, where);
    const near = nearestOnLine(place.at, line);
    if (near.away > BESIDE) {
      throw new UserError({
        what: `${feature.id} does not lead to this place`,
        where,
        got: `${Math.round(near.away)} m between them at the nearest`,
        expected: `a place within ${BESIDE} m of the line`,
      });
    }
    const beside = near.away <= reachOf(place.feature);
    return handrailLeg(
      from,
      feature,
      near.along,
      endFeature(beside ? place.feature : null, near.at, look)?.id,
    );
  }

  const sense = wantedSense(steps, i, joined.along, feature, previous, look, where);
  const room = sense > 0 ? whole - joined.along : joined.along;
  if (room < 1) {
    throw new UserError({
      what: `${feature.id} does not go on that way`,
      where,
      got: `towards: ${step.towards ?? 'not given'}, at that end already`,
      expected: 'the other way',
    });
  }
  if (step.metres !== undefined) {
    if (step.metres > room + OVER) {
      throw new UserError({
        what: `${feature.id} is not that long`,
        where,
        got: `${step.metres} m`,
        expected: `at most ${Math.round(room)} m that way`,
      });
    }
    const toAlong = joined.along + sense * Math.min(step.metres, room);
    return handrailLeg(from, feature, toAlong, endFeature(null, pointAlong(line, toAlong), look)?.id);
  }

  const next = steps[i + 1];
  if (!next) return handrailToTarget(from, feature, joined.along, sense, look);
  if (next.technique === 'handrail') {
    const branch = followed(next.along ?? next.line, 'along', next, look, where.replace(/\d+$/, `${i + 2}`));
    const meeting =
      branch.id === feature.id ? null : meetingAlong(line, lineOf(branch)!, joined.along, sense, JOIN);
    if (meeting !== null) {
      const at = pointAlong(line, meeting);
      return handrailLeg(from, feature, meeting, (pointFeatureAt(at, look) ?? branch).id);
    }
  }
  const toAlong = sense > 0 ? whole : 0;
  return handrailLeg(from, feature, toAlong, endFeature(null, pointAlong(line, toAlong), look)?.id);
}

/** The last leg along a line ends abreast of the target where the line passes it, else at the line's end. */
function handrailToTarget(from: Point, feature: Feature, along: number, sense: -1 | 1, look: Lookup): Leg {
  const line = lineOf(feature)!;
  const { target } = look.errand;
  const near = nearestOnLine(target.at, line);
  const passes = (near.along - along) * sense > 0 && near.away <= reachOf(target.feature);
  const toAlong = passes ? near.along : sense > 0 ? lineLength(line) : 0;
  return handrailLeg(from, feature, toAlong, endFeature(null, pointAlong(line, toAlong), look)?.id);
}

function endFeature(named: Feature | null, at: Point, look: Lookup): Feature | null {
  return named ?? pointFeatureAt(at, look);
}

/** `towards` as a place: the target or a feature's id. */
function placeName(towards: string | undefined, look: Lookup): 'target' | { feature: string } | undefined {
  if (towards === undefined) return undefined;
  if (towards === 'target') return 'target';
  return look.ground.byId.has(towards) ? { feature: towards } : undefined;
}

/** Which way along the line: the word, else on through the wanted place of the aim-off before, else what brings one nearer the target. */
function wantedSense(
  steps: readonly DrawnLeg[],
  i: number,
  along: number,
  feature: Feature,
  previous: Leg | undefined,
  look: Lookup,
  where: string,
): -1 | 1 {
  const step = steps[i]!;
  const line = lineOf(feature)!;
  if (step.towards !== undefined) {
    const sense = senseOf(step.towards, look.ground, line, along, step.metres ?? lineLength(line));
    if (sense !== 0) return sense;
    const known = [...LINE_ENDS, 'north', 'south', 'east', 'west', 'target', ...look.ground.byId.keys()];
    throw new UserError({
      what: 'it is not clear which way along the line this goes',
      where,
      got: `towards: "${step.towards}"${suggestion(step.towards, known)}`,
      expected: `${LINE_ENDS.join(', ')}, a compass direction, target or a feature's id`,
    });
  }
  const goal =
    previous?.technique === 'aim-off' && previous.line === feature.id
      ? previous.wanted!
      : nextPlace(steps, i, look);
  return alongNearest(feature, goal) >= along ? 1 : -1;
}

/** The next place that the drawn legs name, else the target. */
function nextPlace(steps: readonly DrawnLeg[], i: number, look: Lookup): Point {
  for (const next of steps.slice(i + 1)) {
    if (next.to !== undefined) return placeOf(next.to, look.errand.target.at, look, '').at;
    const line = lineOf(look.ground.byId.get(next.along ?? next.line ?? '') ?? look.errand.target.feature);
    if (line) return nearestOnLine(look.errand.target.at, line).at;
  }
  return look.errand.target.at;
}

/** Aiming off to a line, then along it to what is wanted, unless the next drawn leg follows the line itself. */
function drawnAimOff(steps: readonly DrawnLeg[], i: number, from: Point, look: Lookup, where: string): Leg[] {
  const step = steps[i]!;
  const { errand, ground } = look;
  const line = followed(step.line ?? step.along, 'line', step, look, where);
  const points = lineOf(line)!;
  const next = steps[i + 1];
  const goesOn = next?.technique === 'handrail' && (next.along ?? next.line) === line.id;
  const named = step.to ?? (goesOn ? (next.to ?? placeName(next.towards, look)) : undefined);
  const goal = named === undefined ? errand.target.at : placeOf(named, errand.target.at, look, where).at;
  const wantedAlong = nearestOnLine(goal, points).along;
  const wanted = pointAlong(points, wantedAlong);
  if (distance(wanted, from) < 1) {
    throw new UserError({
      what: 'this leg begins at the place on the line that it wants to reach',
      where,
      got: `${line.id} at [${wanted[0]}, ${wanted[1]}]`,
      expected: 'a line some way ahead',
    });
  }
  const offsetMetres = step.metres ?? defaultOffset(scatterOf(ground, errand, from, wanted).lateral);
  const side =
    step.side ??
    driftSide(legGround(ground, errand, from, wanted).sideSlope, from, line, wantedAlong, offsetMetres);
  const aimed = aimOffLeg({ from, line, wantedAlong, side, offsetMetres });
  if (distance(aimed.to, from) < 1) {
    throw new UserError({
      what: 'this leg has no length: the place aimed at is where it begins',
      where,
      got: `${offsetMetres} m to the ${side} on ${line.id}`,
      expected: 'another side or distance',
    });
  }
  if (goesOn) return [aimed];
  const confirmed =
    named !== undefined && distance(goal, wanted) <= AT_END ? pointFeatureAt(goal, look) : null;
  return [aimed, handrailLeg(aimed.to, line, wantedAlong, endFeature(confirmed, wanted, look)?.id)];
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

function withExtras(leg: Leg, step: DrawnLeg, look: Lookup, where: string): Leg {
  const ticks = (step.ticks ?? []).map((id) => tickOf(leg, featureOf(look.ground, id, where), where));
  ticks.sort((a, b) => a.atMetres - b.atMetres);
  const catching = step.catching === undefined ? leg.catching : catchingOf(leg, step.catching, look, where);
  return { ...leg, ticks, ...(catching === undefined ? {} : { catching }) };
}

function tickOf(leg: Leg, feature: Feature, where: string): Leg['ticks'][number] {
  const met = metAt(leg.path, feature);
  const most = Math.max(100, feature.doubt.rangeMetres);
  if (met.away <= most) return { feature: feature.id, atMetres: met.atMetres };
  throw new UserError({
    what: 'this tick-off feature is not met on the leg',
    where,
    got: `${feature.id}, ${Math.round(met.away)} m from it at the nearest`,
    expected: `a feature within ${Math.round(most)} m of the leg`,
  });
}

function catchingOf(
  leg: Leg,
  id: string,
  look: Lookup,
  where: string,
): { line: string; beyondMetres: number } {
  const feature = followed(id, 'line', { technique: leg.technique, line: id }, look, where);
  const beyondMetres = catchBeyond(leg.path, feature);
  if (beyondMetres !== null) return { line: id, beyondMetres };
  throw new UserError({
    what: 'this catching feature does not lie across the way ahead',
    where,
    got: `${id}, ${Math.round(awayFrom(feature, leg.to))} m from the leg's end at the nearest`,
    expected: `a line met within ${FURTHEST_CATCH} m straight on`,
  });
}

/** Half the sweep width in good light, metres, 10 to 60: from here a feature at a leg's end is seen. Class factors: Koester 2014. */
export function reachOf(feature: Feature | null): number {
  if (!feature) return AT_END;
  const { sweepWidthMetres, rangeMetres, visibility } = feature.doubt;
  const half =
    sweepWidthMetres === undefined
      ? rangeMetres * (visibility === 'high' ? 0.9 : visibility === 'medium' ? 0.8 : 0.55)
      : sweepWidthMetres / 2;
  return Math.min(60, Math.max(10, half));
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
