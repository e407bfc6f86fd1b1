import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import type { DrawnLeg } from './drawn.ts';
import { followed } from './drawn-line.ts';
import type { Leg } from './leg.ts';
import { awayFrom } from './map-line.ts';
import { catchBeyond, FURTHEST_CATCH, metAt } from './on-the-way.ts';
import { featureOf, type Lookup } from './place.ts';

/** A leg with the tick-offs and the catching feature that the drawing names. */
export function withExtras(leg: Leg, step: DrawnLeg, look: Lookup, where: string): Leg {
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
