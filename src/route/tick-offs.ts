import type { Feature } from '../features/feature.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { distance, lineLength, type Point } from '../math/plane.ts';
import { crossingShare } from './handrail-leg.ts';
import type { Leg } from './leg.ts';
import { type Handrail, linesNear, type Planning, spotsNear } from './planning.ts';
import { placeOfSpot } from './stretch-legs.ts';

/** A tick-off is worth naming when it is likely there and not within so much of either end of the leg, metres. */
const LEAST_EXISTS = 0.9;
const OFF_THE_ENDS = 60;
/** Legs shorter than this need none, metres; and no leg carries more of them. */
const SHORTEST = 200;
const MOST = 4;

/** What a leg crosses or passes that a party can tick off, in order: sure lines across an open leg, branches and crossings along a line. */
export function tickOffsOn(planning: Planning, leg: Leg): { feature: string; atMetres: number }[] {
  const whole = lineLength(leg.path);
  if (whole < SHORTEST) return [];
  const ticks = leg.technique === 'handrail' ? placesOnLine(planning, leg) : linesCrossed(planning, leg);
  ticks.sort((a, b) => a.atMetres - b.atMetres || (a.feature < b.feature ? -1 : 1));
  const clear = ticks.filter((t) => t.atMetres >= OFF_THE_ENDS && t.atMetres <= whole - OFF_THE_ENDS);
  return spread(clear);
}

/** The same leg with its tick-offs, where it names none yet. */
export function withTicks(planning: Planning, leg: Leg): Leg {
  return leg.ticks.length > 0 ? leg : { ...leg, ticks: tickOffsOn(planning, leg) };
}

/** At most four, evenly taken, none within 60 m of the one before. */
function spread<T extends { atMetres: number }>(ticks: readonly T[]): T[] {
  const apart: T[] = [];
  for (const tick of ticks) {
    const last = apart[apart.length - 1];
    if (!last || tick.atMetres - last.atMetres >= OFF_THE_ENDS) apart.push(tick);
  }
  if (apart.length <= MOST) return apart;
  return Array.from({ length: MOST }, (_, i) => apart[Math.round((i * (apart.length - 1)) / (MOST - 1))]!);
}

function linesCrossed(planning: Planning, leg: Leg): { feature: string; atMetres: number }[] {
  const found: { feature: string; atMetres: number }[] = [];
  let walked = 0;
  for (let i = 1; i < leg.path.length; i++) {
    const a = leg.path[i - 1]!;
    const b = leg.path[i]!;
    const d = distance(a, b);
    const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    for (const line of linesNear(planning, middle, d / 2)) {
      if (!isSure(line.feature) || line.feature.id === leg.line) continue;
      const at = firstCrossing(a, b, line);
      if (at !== null) found.push({ feature: line.feature.id, atMetres: walked + at });
    }
    walked += d;
  }
  return found;
}

function isSure(feature: Feature): boolean {
  return feature.doubt.exists >= LEAST_EXISTS && lineFamily(feature.kind) !== 'form';
}

function firstCrossing(a: Point, b: Point, line: Handrail): number | null {
  let least = 2;
  for (let j = 1; j < line.points.length; j++) {
    const share = crossingShare(a, b, line.points[j - 1]!, line.points[j]!);
    if (share !== null && share < least) least = share;
  }
  return least > 1 ? null : least * distance(a, b);
}

/** Point features within 15 m of the line walked: corners, junctions, gates, crossings. */
function placesOnLine(planning: Planning, leg: Leg): { feature: string; atMetres: number }[] {
  const found: { feature: string; atMetres: number }[] = [];
  const seen = new Set<string>();
  let walked = 0;
  for (let i = 1; i < leg.path.length; i++) {
    const a = leg.path[i - 1]!;
    const b = leg.path[i]!;
    const d = distance(a, b);
    if (d > 0) {
      const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      for (const spot of spotsNear(planning, middle, d / 2 + 15)) {
        if (seen.has(spot.id) || spot.doubt.exists < LEAST_EXISTS || spot.id === leg.toFeature) continue;
        const p = placeOfSpot(spot);
        const t = ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / (d * d);
        if (t < 0 || t > 1) continue;
        const off = distance(p, [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
        if (off > 15) continue;
        seen.add(spot.id);
        found.push({ feature: spot.id, atMetres: walked + t * d });
      }
    }
    walked += d;
  }
  return found;
}
