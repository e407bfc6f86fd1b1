import { distance, nearestOnLine, pointAlong } from '../../math/plane.ts';
import { aimOffLeg, crossingSine } from '../aim-off-leg.ts';
import { offsetsFor } from '../endgames.ts';
import { handrailLeg } from '../handrail-leg.ts';
import { scatterOf } from '../lateral.ts';
import type { Leg } from '../leg.ts';
import { isBlocked, type Planning } from '../planning.ts';
import { type Made, replaced } from './made.ts';

/** On to the line that comes next, or that the target stands on, to one side; other sides and offsets where one aims off already. */
export function aimingOff(legs: readonly Leg[], planning: Planning): Made[] {
  const made: Made[] = [];
  legs.forEach((leg, i) => {
    if (leg.technique === 'handrail' || leg.technique === 'box') return;
    const next = legs[i + 1];
    const aimed = leg.technique === 'aim-off';
    const id = aimed ? leg.line : next?.technique === 'handrail' ? next.line : lineAt(leg, planning);
    const line = planning.handrails.get(id ?? '');
    if (!line) return;
    const follows = next?.technique === 'handrail' && next.line === line.feature.id;
    const wanted = follows ? next.to : (leg.wanted ?? leg.to);
    const wantedAlong = nearestOnLine(wanted, line.points).along;
    const at = pointAlong(line.points, wantedAlong);
    if (distance(leg.from, at) < 60 || crossingSine(leg.from, line.points, wantedAlong) < 0.5) return;
    const { lateral } = scatterOf(planning.ground, planning.errand, leg.from, at);
    for (const side of ['left', 'right'] as const) {
      for (const offsetMetres of offsetsFor(lateral)) {
        const already = aimed && leg.side === side && Math.abs(leg.offsetMetres! - offsetMetres) < 10;
        const aim = aimOffLeg({ from: leg.from, line: line.feature, wantedAlong, side, offsetMetres });
        if (already || Math.abs(aim.offsetMetres! - offsetMetres) > 5) continue;
        if (isBlocked(planning, aim.from, aim.to)) continue;
        const confirmed = follows ? next.toFeature : leg.toFeature;
        const follow = handrailLeg(aim.to, line.feature, wantedAlong, confirmed);
        made.push({
          kind: 'aim off',
          said: {
            is: 'aim off',
            metres: offsetMetres,
            side,
            line: line.feature,
            ...(aimed ? { before: { metres: leg.offsetMetres!, side: leg.side! } } : {}),
          },
          legs: replaced(planning, legs, i, follows ? i + 1 : i, [aim, follow]),
        });
      }
    }
  });
  return made;
}

/** A line at the end of a leg. */
function lineAt(leg: Leg, planning: Planning): string | undefined {
  let best: string | undefined;
  let least = 15;
  for (const [id, line] of planning.handrails) {
    const { away } = nearestOnLine(leg.to, line.points);
    if (away < least) {
      least = away;
      best = id;
    }
  }
  return best;
}
