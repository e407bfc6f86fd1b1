import { UserError } from '../door/user-error.ts';
import { distance, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { aimOffLeg, defaultOffset, driftSide } from './aim-off-leg.ts';
import type { DrawnLeg } from './drawn.ts';
import { placeName } from './drawn-handrail.ts';
import { followed } from './drawn-line.ts';
import { handrailLeg } from './handrail-leg.ts';
import { legGround, scatterOf } from './lateral.ts';
import type { Leg } from './leg.ts';
import { AT_END, endFeature, pointFeatureAt } from './leg-ends.ts';
import { lineOf } from './map-line.ts';
import { type Lookup, placeOf } from './place.ts';

/** Aiming off to a line, then along it to what is wanted, unless the next drawn leg follows the line itself. */
export function drawnAimOff(
  steps: readonly DrawnLeg[],
  i: number,
  from: Point,
  look: Lookup,
  where: string,
): Leg[] {
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
