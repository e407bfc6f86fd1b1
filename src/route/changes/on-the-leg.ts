import { distance, nearestOnLine } from '../../math/plane.ts';
import { catchingLine } from '../endgames.ts';
import { handrailLeg } from '../handrail-leg.ts';
import type { Leg } from '../leg.ts';
import { isBlocked, type Planning } from '../planning.ts';
import { openLeg } from '../straight-leg.ts';
import { tickOffsOn } from '../tick-offs.ts';
import { type Made, replaced } from './made.ts';

/** A line behind the end of a leg that stops those who overshoot; a nearer one where there is one already. */
export function catchingFeatures(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.technique === 'handrail' || leg.technique === 'aim-off' || leg.toFeature === undefined) return;
    const found = catchingLine(planning, leg);
    if (!found || found.line === leg.catching?.line) return;
    if (leg.catching && leg.catching.beyondMetres <= found.beyondMetres) return;
    const line = planning.handrails.get(found.line)!.feature;
    made.push({
      kind: 'catching feature',
      said: { is: 'catching', line, metres: found.beyondMetres, leg: i + 1 },
      legs: replaced(planning, legs, i, i, [{ ...leg, catching: found }]),
    });
  });
  return made;
}

/** What lies by a leg that has nothing ticked off yet. */
export function tickOffs(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.ticks.length > 0) return;
    const ticks = tickOffsOn(planning, leg);
    if (ticks.length === 0) return;
    const features = ticks.map((t) => planning.ground.byId.get(t.feature)!);
    made.push({
      kind: 'tick-off',
      said: { is: 'ticks', features, leg: i + 1 },
      legs: replaced(planning, legs, i, i, [{ ...leg, ticks }]),
    });
  });
  return made;
}

/** Stays on the line until abreast of the target, or goes on to it from a nearer place. */
export function shorterLastLeg(legs: readonly Leg[], planning: Planning): Made[] {
  const { target } = planning.errand;
  const last = legs[legs.length - 1]!;
  const before = legs[legs.length - 2];
  const line = planning.handrails.get(before?.line ?? '');
  if (!before || !line || before.technique !== 'handrail' || last.technique === 'handrail') return [];
  const near = nearestOnLine(target.at, line.points);
  const whole = distance(last.from, last.to);
  if (near.away > whole - 30 || isBlocked(planning, near.at, target.at)) return [];
  const follow = handrailLeg(before.from, line.feature, near.along);
  const across = near.away < 1 ? [] : [openLeg(planning, near.at, target.at, target.feature)];
  return [
    {
      kind: 'shorter last leg',
      said: { is: 'stay', line: line.feature, metres: near.away },
      legs: replaced(planning, legs, legs.length - 2, legs.length - 1, [follow, ...across]),
    },
  ];
}
