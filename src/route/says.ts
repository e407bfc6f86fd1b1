import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import { bearingTo, degreesOf } from '../math/bearing.ts';
import { distance, lineLength, type Point } from '../math/plane.ts';
import type { Errand } from './drawn.ts';
import { englishName } from './english.ts';
import type { Leg, LegFigures } from './leg.ts';
import { lineOf, lowerEnd } from './map-line.ts';
import { type EndPlace, routeWords, type WayAlong } from './words.ts';

/* What is to be said of legs and routes; the sentences themselves stand in `english.ts` and `german.ts`. */

/** Eighths of the compass clockwise from north, of a bearing in radians. */
export function eighthOf(bearing: number): number {
  return Math.round(degreesOf(bearing) / 45) % 8;
}

/** What people call a feature in English: its name, or its kind with "the". */
export function nameOf(feature: Feature): string {
  return englishName(feature);
}

/** The place where a leg ends. */
export function endPlace(leg: Leg, ground: MappedGround, errand: Errand): EndPlace {
  const line = lineNamed(leg, ground);
  if (leg.technique === 'aim-off') {
    return { is: 'beside', line, metres: leg.offsetMetres ?? 0, side: leg.side ?? 'left' };
  }
  const feature = leg.toFeature === undefined ? undefined : featureNamed(leg.toFeature, ground, errand);
  if (feature) return { is: 'feature', feature };
  return leg.technique === 'handrail' ? { is: 'on line', line } : { is: 'open' };
}

/** The place where a leg ends, in words. */
export function endText(leg: Leg, ground: MappedGround, errand: Errand): string {
  return routeWords(errand.reading).place(endPlace(leg, ground, errand));
}

/** The place where a leg begins, in words: the end of the one before, or the start. */
export function startText(before: Leg | undefined, ground: MappedGround, errand: Errand): string {
  if (before) return endText(before, ground, errand);
  const { feature } = errand.start;
  return routeWords(errand.reading).place(feature ? { is: 'feature', feature } : { is: 'start' });
}

function featureNamed(id: string, ground: MappedGround, errand: Errand): Feature | undefined {
  return id === errand.target.feature.id ? errand.target.feature : ground.byId.get(id);
}

function lineNamed(leg: Leg, ground: MappedGround): Feature | undefined {
  return leg.line === undefined ? undefined : ground.byId.get(leg.line);
}

/** One sentence that says a leg aloud before setting off. Bearings are from grid north. */
export function saysOf(leg: Leg, figures: LegFigures, ground: MappedGround, errand: Errand): string {
  return routeWords(errand.reading).leg({
    technique: leg.technique,
    end: endPlace(leg, ground, errand),
    line: lineNamed(leg, ground),
    way: wayAlong(leg, ground),
    metres: figures.distanceMetres,
    straightMetres: distance(leg.from, leg.to),
    bearingDegrees: degreesOf(figures.gridBearing),
    eighth: eighthOf(figures.gridBearing),
    doublePaces: figures.doublePaces,
    minutes: figures.minutes,
    side: leg.side ?? 'left',
    offsetMetres: leg.offsetMetres ?? 0,
    ticks: leg.ticks.map((t) => ({ feature: ground.byId.get(t.feature), id: t.feature, metres: t.atMetres })),
    catching: leg.catching
      ? { line: ground.byId.get(leg.catching.line), beyondMetres: leg.catching.beyondMetres }
      : null,
  });
}

/** Which way along a line: up or down for water, else the compass direction of the stretch. */
function wayAlong(leg: Leg, ground: MappedGround): WayAlong {
  const feature = lineNamed(leg, ground);
  const line = feature && lineOf(feature);
  if (!feature || !line) return null;
  if (feature.kind === 'stream' || feature.kind === 'small-stream') {
    const withLine = (leg.toAlong ?? 0) > (leg.fromAlong ?? 0);
    return withLine === lowerEnd(ground, line) > 0 ? 'down' : 'up';
  }
  return { eighth: eighthOf(bearingTo(leg.from, leg.to)) };
}

/** One plain phrase for a route: the lines it follows, the last sure place, and how it comes from there to the target. */
export function routePhrase(legs: readonly Leg[], ground: MappedGround, errand: Errand): string {
  const words = routeWords(errand.reading);
  let launch = legs.length - 1;
  while (launch > 0 && !surePlace(legs[launch - 1]!)) launch--;
  const macro = legs.slice(0, launch);
  const endgame = legs.slice(launch);
  const parts: string[] = [];
  if (macro.length > 0) parts.push(macroText(macro, ground, errand));
  endgame.forEach((leg, i) => {
    const before = endgame[i - 1];
    parts.push(
      words.near({
        technique: leg.technique,
        metres: lineLength(leg.path),
        end: i === endgame.length - 1 ? { is: 'target' } : endPlace(leg, ground, errand),
        line: lineNamed(leg, ground),
        same: before?.technique === 'aim-off' && before.line === leg.line,
        way: leg.technique === 'handrail' ? wayAlong(leg, ground) : null,
        side: leg.side ?? 'left',
      }),
    );
  });
  const kept = parts.length > 4 ? [...parts.slice(0, 2), ...parts.slice(-2)] : parts;
  return words.joined(kept);
}

function surePlace(leg: Leg): boolean {
  return leg.toFeature !== undefined;
}

function macroText(legs: readonly Leg[], ground: MappedGround, errand: Errand): string {
  const words = routeWords(errand.reading);
  const followed = legs.filter((l) => l.technique === 'handrail').map((l) => lineNamed(l, ground));
  const called = (line: Feature | undefined) => (line ? words.feature(line) : '');
  return words.far({
    // lines of one name are said once
    lines: followed.filter((line, i) => followed.findIndex((other) => called(other) === called(line)) === i),
    open: legs.some((l) => l.technique !== 'handrail'),
    how: legs.every((l) => l.technique === 'sight')
      ? 'sight'
      : legs.some((l) => l.technique === 'contour')
        ? 'slope'
        : 'open',
    end: endPlace(legs[legs.length - 1]!, ground, errand),
  });
}

/** The line of a route on the map, its legs' paths joined. */
export function routeLine(legs: readonly Leg[]): Point[] {
  const line: Point[] = [];
  for (const leg of legs) {
    for (const p of leg.path) {
      const last = line[line.length - 1];
      if (!last || last[0] !== p[0] || last[1] !== p[1]) line.push(p);
    }
  }
  return line;
}
