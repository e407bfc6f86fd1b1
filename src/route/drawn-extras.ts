import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import type { DrawnLeg } from './drawn.ts';
import { followed } from './drawn-line.ts';
import type { Leg } from './leg.ts';
import { awayFrom } from './map-line.ts';
import { catchBeyond, FURTHEST_CATCH, metAt } from './on-the-way.ts';
import { featureOf, type Lookup } from './place.ts';

/** A leg with the tick-offs, the catching feature and the counting that the drawing names. */
export function withExtras(leg: Leg, step: DrawnLeg, look: Lookup, where: string): Leg {
  const ticks = (step.ticks ?? []).map((id) => tickOf(leg, featureOf(look.ground, id, where), where));
  ticks.sort((a, b) => a.atMetres - b.atMetres);
  const catching = step.catching === undefined ? leg.catching : catchingOf(leg, step.catching, look, where);
  if (step.counting === true) mustEndInRow(leg, look, where);
  return {
    ...leg,
    ticks,
    ...(catching === undefined ? {} : { catching }),
    ...(step.counting === true ? { counting: true } : {}),
  };
}

/** Only members of a row can be counted, and only on the way to one of them. */
function mustEndInRow(leg: Leg, look: Lookup, where: string): void {
  const end = leg.toFeature === undefined ? undefined : look.ground.byId.get(leg.toFeature);
  const straight = leg.technique === 'bearing' || leg.technique === 'timing' || leg.technique === 'sight';
  if (straight && end?.row !== undefined) return;
  throw new UserError({
    what: 'there is nothing to count on this leg',
    where,
    got: `counting: true on a ${leg.technique} leg to ${end === undefined ? 'a point in the open' : end.id}`,
    expected: 'a bearing, timing or sight leg that ends at a member of a row',
  });
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
