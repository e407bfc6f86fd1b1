import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import { lineLength, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { alongNearest } from './aim-off-leg.ts';
import type { DrawnLeg } from './drawn.ts';
import { followed } from './drawn-line.ts';
import { handrailLeg, LINE_ENDS, meetingAlong, senseOf } from './handrail-leg.ts';
import type { Leg } from './leg.ts';
import { endFeature, pointFeatureAt, reachOf } from './leg-ends.ts';
import { lineOf } from './map-line.ts';
import { type Lookup, placeOf } from './place.ts';

/** How far a leg may begin from the line it follows, metres, or three SD of the line's place where that is more. */
const JOIN = 30;
/** A named feature beyond this from the line is not "on" it, metres. */
const BESIDE = 200;
/** Slack of a given length that overshoots a line's end, metres. */
const OVER = 25;

/** A drawn handrail leg: to a place, for a distance, to the next line, to the target, or to the line's end. */
export function drawnHandrail(
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

/** `towards` as a place: the target or a feature's id. */
export function placeName(
  towards: string | undefined,
  look: Lookup,
): 'target' | { feature: string } | undefined {
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
