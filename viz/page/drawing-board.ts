import type { Feature } from '../../src/features/feature.ts';
import type { Point } from '../../src/math/plane.ts';
import { snapPoint } from '../../src/math/plane.ts';
import type { DrawnLeg, PlaceName } from '../../src/route/drawn.ts';
import type { Technique } from '../../src/route/leg.ts';
import type { Understood } from './messages.ts';
import type { Places } from './places.ts';

/* Changes of a drawn route, each giving its legs anew. A route's points are the ends of its legs; the last one is the target. */

/** Within this of a line a point counts as on it, metres. */
const ON_LINE = 25;

export type Legs = readonly DrawnLeg[];

/** A point as the task writes it: a feature that is there, or metres. */
export function placeFor(places: Places, at: Point, reach: number): PlaceName {
  const feature = places.pointNear(at, reach);
  return feature === null
    ? { at: snapPoint([Math.round(at[0]), Math.round(at[1])]) }
    : { feature: feature.id };
}

export function whereIs(places: Places, place: PlaceName): Point | null {
  if (typeof place === 'string') return null;
  if ('at' in place) return place.at;
  if ('feature' in place) return places.at(place);
  return places.at('grid' in place ? { grid: place.grid } : { lonLat: [...place.lonLat] });
}

/** A new point on leg `i`, which it cuts in two. */
export function withPoint(known: Understood, start: Point, i: number, to: PlaceName, places: Places): Legs {
  const legs = [...known.legs];
  const cut = legs[i] ?? { technique: 'bearing' as const, to: 'target' as const };
  const at = whereIs(places, to);
  const first: DrawnLeg = onto(cut, startOf(known, start, i), at, to, places);
  const ends = known.ends[i];
  const second = at === null || ends === undefined ? cut : kept(cut, at, ends, places);
  legs.splice(i, 1, first, second);
  return legs;
}

/** Leg `i` ends elsewhere. */
export function withMoved(known: Understood, start: Point, i: number, to: PlaceName, places: Places): Legs {
  const legs = [...known.legs];
  const at = whereIs(places, to);
  legs[i] = onto(legs[i]!, startOf(known, start, i), at, to, places);
  const next = legs[i + 1];
  const end = known.ends[i + 1];
  if (next !== undefined && at !== null && end !== undefined) legs[i + 1] = kept(next, at, end, places);
  return legs;
}

/** The route without the end of leg `i`, which the next one takes over. */
export function withoutPoint(known: Understood, start: Point, i: number, places: Places): Legs {
  if (i >= known.legs.length - 1) return known.legs;
  const legs = [...known.legs];
  legs.splice(i, 1);
  const end = known.ends[i + 1];
  if (end !== undefined) legs[i] = kept(legs[i]!, startOf(known, start, i), end, places);
  return legs;
}

/** The route from another start: its first leg follows its line only where it still begins there. */
export function fromStart(known: Understood, start: Point, places: Places): Legs {
  const [first, ...rest] = known.legs;
  const end = known.ends[0];
  return first === undefined || end === undefined ? known.legs : [kept(first, start, end, places), ...rest];
}

/** The route to another target: what ended at the old one, or along a line that does not lead there, goes on to the new one. */
export function toTarget(known: Understood, target: Point, places: Places): Legs {
  const legs = [...known.legs];
  const last = legs[legs.length - 1];
  const end = known.ends[legs.length - 1];
  if (last === undefined || end === undefined) return legs;
  if (last.technique !== 'handrail') {
    legs[legs.length - 1] = last.technique === 'aim-off' ? straightOn : { ...bare(last), to: 'target' };
    return legs;
  }
  const line = places.feature(last.along ?? last.line);
  if (line !== undefined && isOn(places, line, target)) return legs;
  legs[legs.length - 1] = { technique: 'handrail', along: last.along ?? last.line ?? '', to: { at: end } };
  return [...legs, straightOn];
}

const straightOn: DrawnLeg = { technique: 'bearing', to: 'target' };

/** Where leg `i` begins. */
export function startOf(known: Understood, start: Point, i: number): Point {
  return i === 0 ? start : (known.ends[i - 1] ?? start);
}

/** A leg to another place: along its line where that still holds, else on a bearing. */
function onto(leg: DrawnLeg, from: Point, at: Point | null, to: PlaceName, places: Places): DrawnLeg {
  if (at !== null && leg.technique === 'handrail') {
    const line = places.feature(leg.along ?? leg.line);
    if (line !== undefined && isOn(places, line, from) && isOn(places, line, at)) {
      return { technique: 'handrail', along: line.id, to };
    }
    return { technique: 'bearing', to };
  }
  if (leg.technique === 'aim-off') return { technique: 'bearing', to };
  const { towards: _, metres: __, ...rest } = bare(leg);
  return { ...rest, to };
}

/** A leg without what was said of its way, which need not hold between other ends. */
function bare({ catching: _, ticks: __, counting: ___, ...leg }: DrawnLeg): DrawnLeg {
  return leg;
}

/** A leg that begins elsewhere: along its line where it still touches it, else on a bearing to where it went. */
function kept(leg: DrawnLeg, from: Point, end: Point, places: Places): DrawnLeg {
  if (leg.technique !== 'handrail') return bare(leg);
  const line = places.feature(leg.along ?? leg.line);
  if (line !== undefined && isOn(places, line, from)) return bare(leg);
  return { technique: 'bearing', to: leg.to ?? { at: end } };
}

function isOn(places: Places, line: Feature, at: Point): boolean {
  return places.linesThrough(at, at, ON_LINE).includes(line);
}

/** A line that both ends of leg `i` lie on, when the leg does not follow it yet. */
export function lineToFollow(known: Understood, start: Point, i: number, places: Places): Feature | null {
  const leg = known.legs[i];
  const end = known.ends[i];
  if (leg === undefined || end === undefined || leg.technique === 'handrail') return null;
  const lines = places.linesThrough(startOf(known, start, i), end, ON_LINE);
  return lines.find((f) => f.geometry.type === 'line') ?? null;
}

/** A way of walking a leg, with the line that it needs. */
export interface Way {
  readonly technique: Technique;
  readonly line: Feature | null;
}

/** What is possible on leg `i`, from what lies there. */
export function waysOf(known: Understood, start: Point, i: number, places: Places): Way[] {
  const from = startOf(known, start, i);
  const to = known.ends[i] ?? from;
  const open: Way[] = (['bearing', 'timing', 'sight', 'contour', 'box'] as const).map((technique) => ({
    technique,
    line: null,
  }));
  const along = places.linesThrough(from, to, ON_LINE).slice(0, 4);
  const beside = places
    .linesThrough(to, to, 120)
    .filter((f) => f.geometry.type === 'line' && !along.includes(f))
    .slice(0, 4);
  const own = places.feature(known.legs[i]?.along ?? known.legs[i]?.line);
  const rails =
    own && known.legs[i]?.technique === 'handrail' && !along.includes(own) ? [own, ...along] : along;
  const aims =
    own && known.legs[i]?.technique === 'aim-off' && !beside.includes(own) ? [own, ...beside] : beside;
  return [
    ...rails.map((line): Way => ({ technique: 'handrail', line })),
    ...open,
    ...aims.map((line): Way => ({ technique: 'aim-off', line })),
  ];
}

/** Leg `i` walked another way. */
export function withWay(known: Understood, i: number, way: Way): Legs {
  const legs = [...known.legs];
  const leg = legs[i]!;
  const end = known.ends[i];
  const to: PlaceName = leg.to ?? (i === legs.length - 1 || end === undefined ? 'target' : { at: end });
  if (way.technique === 'handrail') legs[i] = { technique: 'handrail', along: way.line!.id, to };
  else if (way.technique === 'aim-off') legs[i] = { technique: 'aim-off', line: way.line!.id, to };
  else legs[i] = { technique: way.technique, to };
  return legs;
}
