import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import { bearingTo, degreesOf, RADIANS } from '../math/bearing.ts';
import { distance, lineLength, type Point } from '../math/plane.ts';
import type { Errand } from './drawn.ts';
import type { Leg, LegFigures } from './leg.ts';
import { lineOf, lowerEnd } from './map-line.ts';

/** The eight compass words, clockwise from north. */
const WORDS = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'];

/** "north-east" for a bearing in radians. */
export function compassOf(bearing: number): string {
  return WORDS[Math.round(degreesOf(bearing) / 45) % 8]!;
}

/** "074°" for a bearing in radians. */
export function degreesText(bearing: number): string {
  return `${String(Math.round(bearing / RADIANS) % 360).padStart(3, '0')}°`;
}

/** What people call a feature: its name, or its kind with "the". */
export function nameOf(feature: Feature): string {
  return feature.name ?? `the ${kindText(feature)}`;
}

function kindText(feature: Feature): string {
  switch (feature.kind) {
    case 're-entrant':
      return 're-entrant';
    case 'right-of-way':
      return 'right of way';
    case 'stream-end':
      return 'end of the stream';
    case 'line-end':
      return 'end of the line';
    case 'other':
      return 'marked point';
    default:
      return feature.kind.replaceAll('-', ' ');
  }
}

/** The place where a leg ends, in words. */
export function endText(leg: Leg, ground: MappedGround, errand: Errand): string {
  if (leg.technique === 'aim-off') {
    return `${lineName(leg, ground)}, ${round(leg.offsetMetres ?? 0)} m ${leg.side} of the place wanted`;
  }
  const feature = leg.toFeature === undefined ? undefined : featureNamed(leg.toFeature, ground, errand);
  if (feature) return nameOf(feature);
  return leg.technique === 'handrail' ? `a place on ${lineName(leg, ground)}` : 'a point in the open';
}

/** The place where a leg begins, in words: the end of the one before, or the start. */
export function startText(before: Leg | undefined, ground: MappedGround, errand: Errand): string {
  if (before) return endText(before, ground, errand);
  return errand.start.feature ? nameOf(errand.start.feature) : 'the start';
}

function featureNamed(id: string, ground: MappedGround, errand: Errand): Feature | undefined {
  return id === errand.target.feature.id ? errand.target.feature : ground.byId.get(id);
}

function lineName(leg: Leg, ground: MappedGround): string {
  const line = leg.line === undefined ? undefined : ground.byId.get(leg.line);
  return line ? nameOf(line) : 'the line';
}

/** Metres as people say them: whole tens from 100 m, whole fives below. */
function round(metres: number): number {
  const unit = metres >= 100 ? 10 : 5;
  return Math.round(metres / unit) * unit;
}

/** One sentence that says a leg aloud before setting off. Bearings are from grid north. */
export function saysOf(leg: Leg, figures: LegFigures, ground: MappedGround, errand: Errand): string {
  const metres = `${round(figures.distanceMetres)} m`;
  const bearing = degreesText(figures.gridBearing);
  const end = endText(leg, ground, errand);
  return `${main(leg, figures, metres, bearing, end, ground)}${ticksText(leg, ground)}${catchText(leg, ground)}.`;
}

function main(
  leg: Leg,
  figures: LegFigures,
  metres: string,
  bearing: string,
  end: string,
  ground: MappedGround,
): string {
  switch (leg.technique) {
    case 'handrail':
      return `Follow ${lineName(leg, ground)} ${wayText(leg, ground)} for ${metres} to ${end}`;
    case 'bearing':
      return `Walk on a bearing of ${bearing} for ${metres}, about ${figures.doublePaces} double paces, to ${end}`;
    case 'timing':
      return `Walk on a bearing of ${bearing} for about ${Math.round(figures.minutes)} minutes (${metres}) to ${end}`;
    case 'aim-off': {
      const turn = leg.side === 'left' ? 'right' : 'left';
      return `Walk on a bearing of ${bearing} for ${metres} on to ${lineName(leg, ground)}, aiming ${round(leg.offsetMetres ?? 0)} m to the ${leg.side} so that you know to turn ${turn}`;
    }
    case 'contour':
      return `Hold your height round the slope for ${metres}, setting off ${compassOf(figures.gridBearing)}, to ${end}`;
    case 'sight':
      return `Walk by sight for ${metres}, ${compassOf(figures.gridBearing)}, to ${end}`;
    case 'box':
      return `Box round the obstacle: ${round(leg.offsetMetres ?? 0)} m out to the ${leg.side}, ${round(distance(leg.from, leg.to))} m along, as far back, to ${end}`;
  }
}

/** Which way along a line: up or down for water, else the compass direction of the stretch. */
function wayText(leg: Leg, ground: MappedGround): string {
  const feature = leg.line === undefined ? undefined : ground.byId.get(leg.line);
  const line = feature && lineOf(feature);
  if (!feature || !line) return '';
  if (feature.kind === 'stream' || feature.kind === 'small-stream') {
    const withLine = (leg.toAlong ?? 0) > (leg.fromAlong ?? 0);
    return withLine === lowerEnd(ground, line) > 0 ? 'downstream' : 'upstream';
  }
  return compassOf(bearingTo(leg.from, leg.to));
}

function ticksText(leg: Leg, ground: MappedGround): string {
  if (leg.ticks.length === 0) return '';
  const ticks = leg.ticks.map((t) => {
    const feature = ground.byId.get(t.feature);
    return `${feature ? nameOf(feature) : t.feature} at ${round(t.atMetres)} m`;
  });
  return `; tick off ${listed(ticks)}`;
}

function catchText(leg: Leg, ground: MappedGround): string {
  if (!leg.catching) return '';
  const line = ground.byId.get(leg.catching.line);
  return `; ${line ? nameOf(line) : 'the line'} ${round(leg.catching.beyondMetres)} m behind it says you are past`;
}

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

/** One plain phrase for a route: the lines it follows, the last sure place, and how it comes from there to the target. */
export function routePhrase(legs: readonly Leg[], ground: MappedGround, errand: Errand): string {
  let launch = legs.length - 1;
  while (launch > 0 && !surePlace(legs[launch - 1]!)) launch--;
  const macro = legs.slice(0, launch);
  const endgame = legs.slice(launch);
  const parts: string[] = [];
  if (macro.length > 0) parts.push(macroText(macro, ground, errand));
  endgame.forEach((leg, i) => {
    parts.push(shortText(leg, i === endgame.length - 1, endgame[i - 1], ground, errand));
  });
  const kept = parts.length > 4 ? [...parts.slice(0, 2), ...parts.slice(-2)] : parts;
  return kept.join(', then ');
}

function surePlace(leg: Leg): boolean {
  return leg.toFeature !== undefined;
}

function macroText(legs: readonly Leg[], ground: MappedGround, errand: Errand): string {
  const end = endText(legs[legs.length - 1]!, ground, errand);
  const lines = legs.filter((l) => l.technique === 'handrail').map((l) => lineName(l, ground));
  const names = [...new Set(lines)];
  const open = legs.some((l) => l.technique !== 'handrail');
  if (names.length === 0) return `${openText(legs)} to ${end}`;
  const by = names.length > 3 ? `${names[0]}, ${names[1]} and other lines` : listed(names);
  return `by ${by}${open ? ' and over open ground' : ''} to ${end}`;
}

function openText(legs: readonly Leg[]): string {
  return legs.every((l) => l.technique === 'sight')
    ? 'by sight'
    : legs.some((l) => l.technique === 'contour')
      ? 'round the slope'
      : 'over open ground';
}

function shortText(
  leg: Leg,
  last: boolean,
  before: Leg | undefined,
  ground: MappedGround,
  errand: Errand,
): string {
  const metres = `${round(lineLength(leg.path))} m`;
  const end = last ? 'the target' : endText(leg, ground, errand);
  switch (leg.technique) {
    case 'handrail': {
      const name = before?.technique === 'aim-off' && before.line === leg.line ? 'it' : lineName(leg, ground);
      const water = wayText(leg, ground).endsWith('stream');
      return water ? `${wayText(leg, ground)} along ${name} to ${end}` : `along ${name} to ${end}`;
    }
    case 'aim-off':
      return `aim off ${leg.side} to ${lineName(leg, ground)}`;
    case 'bearing':
      return `${metres} on a bearing to ${end}`;
    case 'timing':
      return `${metres} by the clock to ${end}`;
    case 'contour':
      return `${metres} round the slope to ${end}`;
    case 'sight':
      return `by sight to ${end}`;
    case 'box':
      return `box the obstacle to ${end}`;
  }
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
