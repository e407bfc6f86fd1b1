import { HAZARD_REACH } from '../cost/hazard.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { cellAt } from '../grid/raster.ts';
import { distance } from '../math/plane.ts';
import type { Leg } from '../route/leg.ts';
import { type RouteWords, routeWords } from '../route/words.ts';
import type { ReportLeg } from './report.ts';

/** A hazard this far from the line, or less, is named with its side, metres. Common practice, no source. */
const BESIDE_METRES = 50;
/** Places looked at along a leg, metres apart. */
const STEP_METRES = 20;

type Notes = Pick<ReportLeg, 'stopByMinutes' | 'aimOff' | 'catching' | 'hazardSide'>;

/** What a card says of a leg beside its figures. Fields that do not apply are left out. */
export function legNotes(
  leg: Leg,
  ground: MappedGround,
  seconds: number | null | undefined,
  words: RouteWords = routeWords(),
): Notes {
  const { side, offsetMetres, catching } = leg;
  const line = catching === undefined ? undefined : ground.byId.get(catching.line);
  const hazardSide = hazardSideOf(leg, ground);
  return {
    ...(typeof seconds === 'number' ? { stopByMinutes: Math.ceil(seconds / 60) } : {}),
    ...(side !== undefined && offsetMetres !== undefined
      ? { aimOff: { side, metres: Math.round(offsetMetres) } }
      : {}),
    ...(catching === undefined
      ? {}
      : {
          catching: {
            name: line === undefined ? catching.line : words.feature(line),
            beyondMetres: Math.max(0, Math.round(catching.beyondMetres)),
          },
        }),
    ...(hazardSide === undefined ? {} : { hazardSide }),
  };
}

/** On which side of the plan mapped hazards lie, facing the way one walks. */
function hazardSideOf(leg: Leg, ground: MappedGround): Notes['hazardSide'] {
  if (!ground.hazardsMapped) return undefined;
  const { cell, data } = ground.hazard;
  const hazardous = (x: number, y: number) => {
    const i = cellAt(ground.hazard, x, y);
    return i >= 0 && data[i]! < cell;
  };
  const reach = Math.min(BESIDE_METRES, HAZARD_REACH);
  let left = false;
  let right = false;
  for (let k = 1; k < leg.path.length; k++) {
    const [a, b] = [leg.path[k - 1]!, leg.path[k]!];
    const long = distance(a, b);
    if (long === 0) continue;
    const [ux, uy] = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
    for (let along = 0; along <= long; along += STEP_METRES) {
      const [x, y] = [a[0] + ux * along, a[1] + uy * along];
      for (let away = cell; away <= reach; away += cell) {
        left ||= hazardous(x - uy * away, y + ux * away);
        right ||= hazardous(x + uy * away, y - ux * away);
      }
    }
  }
  return left && right ? 'both sides' : left ? 'left' : right ? 'right' : undefined;
}
