import { alikeKinds } from '../features/lookalikes.ts';
import { bearingTo, wrapHalf } from '../math/bearing.ts';
import { distance, lineLength, nearestOnLine, type Point } from '../math/plane.ts';
import type { Leg, Route, Technique } from '../route/leg.ts';
import { MOST_TOLD_APART, nearestLines } from './nearest-lines.ts';
import { legInShape } from './one-shape.ts';
import type { Line, Spot, World } from './world.ts';
import { alikeSpots } from './world-spots.ts';

/** A leg as the party carries it in its head: map places, indices into the world, nothing true. */
export interface PlannedLeg {
  readonly number: number;
  readonly technique: Technique;
  /** Map places to head for in turn; more than one only where the plan bends (boxing). */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly metres: number;
  /** Spot that ends the leg, −1 for a point in the open. */
  readonly toSpot: number;
  readonly toTarget: boolean;
  /** Line followed or walked on to, −1 none; where on it the leg ends. */
  readonly line: number;
  readonly fromAlong: number;
  readonly toAlong: number;
  /** Place on the line that is wanted, its metres along, and the offset aimed at. */
  readonly wantedAlong: number;
  readonly offset: number;
  /** SD across the leg that the party reckons with when it reverses, metres; set by the world's navigator. */
  readonly ticks: readonly Tick[];
  readonly catching: number;
  readonly fine: boolean;
  /** Legs in a row share their draws while nothing was confirmed between them: the number of the first. */
  readonly drawKey: number;
  /** Families of lines worth noticing on this leg, a bit each, and the lines themselves. */
  readonly families: number;
  readonly lines: readonly number[];
  /** Spots that could be taken for the end of the leg, itself first. */
  readonly likes: readonly number[];
  /** An unmapped cairn could be taken for the end of the leg. */
  readonly likesCairn: boolean;
  /** Members of a row to count before stopping, 0 when nothing is counted; and the row, those that no map shows among them. */
  readonly counts: number;
  readonly row: readonly number[];
}

export interface Tick {
  readonly spot: number;
  readonly line: number;
  readonly at: number;
}

/** A line farther behind the end than this stops nobody in time, metres. Common practice, no source. */
const FURTHEST_CATCH = 150;
const LOOK_AROUND = 700;

/** Reads a route's legs into indices once, so that a million walks need not. */
export function planLegs(world: World, route: Route): PlannedLeg[] {
  const planned: PlannedLeg[] = [];
  let heading = Number.NaN;
  let drawKey = 0;
  for (const [number, leg] of route.legs.entries()) {
    const straight = leg.technique === 'bearing' || leg.technique === 'timing';
    const now = distance(leg.from, leg.to) > 0 ? bearingTo(leg.from, leg.to) : heading;
    const goesOn =
      straight &&
      number > 0 &&
      planned[number - 1]!.technique === leg.technique &&
      planned[number - 1]!.toSpot < 0 &&
      Math.abs(wrapHalf(now - heading)) < Math.PI / 36;
    if (!goesOn) drawKey = number;
    heading = now;
    planned.push(legInShape(planLeg(world, leg, number, drawKey)));
  }
  return planned;
}

function planLeg(world: World, leg: Leg, number: number, drawKey: number): PlannedLeg {
  const toSpot = leg.toFeature === undefined ? -1 : (world.spotById.get(leg.toFeature) ?? -1);
  const line = leg.line === undefined ? -1 : (world.lineById.get(leg.line) ?? -1);
  const catching =
    leg.catching === undefined || leg.catching.beyondMetres > FURTHEST_CATCH
      ? -1
      : (world.lineById.get(leg.catching.line) ?? -1);
  const ticks = leg.ticks.map((t) => ({
    spot: world.spotById.get(t.feature) ?? -1,
    line: world.lineById.get(t.feature) ?? -1,
    at: t.atMetres,
  }));
  const families = familiesOf(world, [line, catching, ...ticks.map((t) => t.line)]);
  const bends = leg.technique === 'box' ? leg.path.slice(1) : [leg.to];
  return {
    number,
    technique: leg.technique,
    x: Float64Array.from(bends, (p) => p[0]),
    y: Float64Array.from(bends, (p) => p[1]),
    metres: lineLength(leg.path),
    toSpot,
    toTarget: toSpot >= 0 && toSpot === world.target,
    line,
    fromAlong: alongOn(world, line, leg.fromAlong, leg.from),
    toAlong: alongOn(world, line, leg.toAlong, leg.to),
    wantedAlong: alongOn(world, line, undefined, leg.wanted ?? leg.to),
    offset: leg.offsetMetres ?? 0,
    ticks,
    catching,
    fine: leg.fine,
    drawKey,
    families,
    lines: linesNear(world, leg.path, families),
    likes: likesOf(world, toSpot),
    likesCairn: toSpot >= 0 && alikeKinds(world.spots[toSpot]!.feature.kind, 'cairn'),
    ...counted(world, leg, toSpot),
  };
}

/** The row that a leg counts along: members between its two ends, and how many of the mapped ones are to be passed. */
function counted(world: World, leg: Leg, toSpot: number): { counts: number; row: number[] } {
  const row = toSpot < 0 ? undefined : world.spots[toSpot]!.feature.row;
  if (leg.counting !== true || row === undefined) return { counts: 0, row: [] };
  const members = world.spots.filter((s) => s.feature.row === row);
  const along = unitTo(leg.from, leg.to);
  const ahead = (s: Spot) => (s.x - leg.from[0]) * along[0] + (s.y - leg.from[1]) * along[1];
  const last = ahead(world.spots[toSpot]!);
  const passed = members.filter((s) => !s.unmapped && ahead(s) > 1 && ahead(s) <= last + 1);
  // the row goes on behind the one that is wanted: a party that counts too few goes on along it
  return { counts: passed.length, row: members.filter((s) => ahead(s) > 1).map((s) => s.index) };
}

function unitTo(from: Point, to: Point): Point {
  const d = distance(from, to) || 1;
  return [(to[0] - from[0]) / d, (to[1] - from[1]) / d];
}

/** Metres along in the world's own (possibly lengthened) geometry. */
function alongOn(world: World, line: number, along: number | undefined, at: Point): number {
  if (line < 0) return 0;
  const l = world.lines[line]!;
  return along === undefined ? nearestOnLine(at, pointsOf(l)).along : along + l.mapStart;
}

function pointsOf(l: Line): Point[] {
  return Array.from(l.x, (x, i): Point => [x, l.y[i]!]);
}

function familiesOf(world: World, lines: readonly number[]): number {
  let bits = 0;
  for (const i of lines) if (i >= 0) bits |= 1 << world.lines[i]!.family;
  return bits;
}

/** Lines of the given families that come within sight of the plan. */
function linesNear(world: World, path: readonly Point[], families: number): number[] {
  const west = Math.min(...path.map((p) => p[0])) - LOOK_AROUND;
  const east = Math.max(...path.map((p) => p[0])) + LOOK_AROUND;
  const south = Math.min(...path.map((p) => p[1])) - LOOK_AROUND;
  const north = Math.max(...path.map((p) => p[1])) + LOOK_AROUND;
  const near = world.lines
    .filter((l) => (families & (1 << l.family)) !== 0)
    .filter((l) => {
      for (let i = 0; i + 1 < l.x.length; i++) {
        const lowX = Math.min(l.x[i]!, l.x[i + 1]!);
        const highX = Math.max(l.x[i]!, l.x[i + 1]!);
        const lowY = Math.min(l.y[i]!, l.y[i + 1]!);
        const highY = Math.max(l.y[i]!, l.y[i + 1]!);
        if (highX >= west && lowX <= east && highY >= south && lowY <= north) return true;
      }
      return false;
    });
  return nearestLines(near, path, MOST_TOLD_APART).map((l) => l.index);
}

/** The spot that ends a leg, and what could be taken for it. */
function likesOf(world: World, spot: number): number[] {
  return spot < 0 ? [] : [spot, ...alikeSpots(world.spots, spot)];
}
