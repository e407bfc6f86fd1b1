import { sideSlopeSpeed, surfaceFactors } from '../conditions/underfoot.ts';
import { type Wetness, wetnessOf, wetSlowness } from '../cost/layers/wetness.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { slownessOn } from '../cost/slowness.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { cellAt, sample } from '../grid/raster.ts';
import { bearingTo } from '../math/bearing.ts';
import { distance, length, lineLength, type Point } from '../math/plane.ts';
import { speedModel } from '../speed/models.ts';
import { paceIndex, paceTable, surfaceSlowness } from '../speed/pace-table.ts';
import { SURFACES, type Surface } from '../terrain/terrain.ts';
import { airAt } from './air.ts';
import { climbOf } from './climb.ts';
import type { Errand } from './drawn.ts';
import type { Leg, LegFigures } from './leg.ts';

/**
 * Double paces on a surface against the count on a path. A count of 58 double paces per 100 m on the level and 74 across
 * rough ground is a ratio of 1.276; the whole column is common practice, no source.
 */
const PACES_ON: Readonly<Record<Surface, number>> = {
  path: 1,
  grass: 1.05,
  heather: 1.15,
  tussock: 1.276,
  hag: 1.35,
  boulder: 1.35,
};
/** Steps shorten by this share per unit of gradient, up and down. Common practice, no source. */
const PACES_PER_GRADIENT = 0.7;

/** What the figures of many legs need, made once per task. */
export interface Walking {
  readonly ground: MappedGround;
  readonly errand: Errand;
  /** Seconds per metre by gradient index, off path. */
  readonly pace: Float32Array;
  /** Slowness of each surface against that table, and its own multiplier of speed, by its code. */
  readonly slowness: readonly number[];
  readonly speed: readonly number[];
  readonly wetness: Wetness;
}

export function walkingOf(ground: MappedGround, errand: Errand): Walking {
  const model = speedModel(errand.party.speed);
  return {
    ground,
    errand,
    pace: paceTable(model, false),
    slowness: SURFACES.map((surface) => surfaceSlowness(model, surface)),
    speed: SURFACES.map((surface) => surfaceFactors(surface).speed),
    wetness: wetnessOf(errand.conditions.ground),
  };
}

/** Distance, climb, bearing, double paces and minutes of a leg walked as planned. */
export function figuresOf(leg: Leg, walking: Walking): LegFigures {
  const onPath = isOnPath(leg, walking.ground);
  const line = measured(leg.path, walking, onPath);
  return {
    gridBearing: bearingTo(leg.path[0]!, afterFirst(leg.path)),
    distanceMetres: lineLength(leg.path),
    ...climbOf(line.heights),
    doublePaces: Math.round((walking.errand.party.doublePacesPer100 * line.paced) / 100),
    minutes: line.seconds / 60,
  };
}

/** A handrail that is a track or a path is walked on it. */
function isOnPath(leg: Leg, ground: MappedGround): boolean {
  if (leg.technique !== 'handrail' || leg.line === undefined) return false;
  const kind = ground.byId.get(leg.line)?.kind;
  return kind !== undefined && lineFamily(kind) === 'way';
}

function afterFirst(path: readonly Point[]): Point {
  for (let i = 1; i < path.length; i++) if (distance(path[0]!, path[i]!) > 0.5) return path[i]!;
  return path[path.length - 1]!;
}

export interface Measured {
  /** Heights every `step` metres along. */
  readonly heights: Float64Array;
  readonly step: number;
  readonly seconds: number;
  /** Metres times the terrain correction of the count. */
  readonly paced: number;
}

/** Walks a line on the map in steps of about a cell (5 to 50 m), summing time and paces, on the ground that the raster search reads. Missing heights count as level. */
export function measured(path: readonly Point[], walking: Walking, onPath: boolean): Measured {
  const { ground, errand, pace, slowness, speed, wetness } = walking;
  const { elevation } = ground.terrain;
  const index = ground.relief.wetness;
  const whole = lineLength(path);
  const wanted = Math.min(50, Math.max(5, elevation.cell));
  const n = Math.max(1, Math.round(whole / wanted));
  const step = whole / n;
  const heights = new Float64Array(n + 1);
  let seconds = 0;
  let paced = 0;
  let segment = 1;
  let walked = 0;
  let before: Point = path[0]!;
  heights[0] = sample(elevation, before[0], before[1]);
  for (let i = 1; i <= n; i++) {
    const along = i * step;
    let a = path[segment - 1]!;
    let b = path[segment]!;
    let d = distance(a, b);
    while (walked + d < along - 1e-9 && segment < path.length - 1) {
      walked += d;
      segment++;
      a = b;
      b = path[segment]!;
      d = distance(a, b);
    }
    const t = d === 0 ? 1 : Math.min(1, (along - walked) / d);
    const p: Point = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    heights[i] = sample(elevation, p[0], p[1]);
    const x = (p[0] + before[0]) / 2;
    const y = (p[1] + before[1]) / 2;
    const rise = heights[i]! - heights[i - 1]!;
    const gradient = step > 0 && Number.isFinite(rise) ? rise / step : 0;
    const cell = cellAt(ground.cover, x, y);
    const code = onPath ? 0 : surfaceIn(ground, cell);
    const day = airAt(errand.conditions, heights[i]!).onPath.speed;
    const wet = code === 0 ? 1 : wetSlowness(wetness, cell < 0 ? Number.NaN : index.data[cell]!);
    const across = code === 0 ? 1 : sideways(ground, x, y, p[0] - before[0], p[1] - before[1]);
    const slow = slownessOn(slowness[code]!, speed[code]!, day, wet);
    seconds += (step * pace[paceIndex(gradient)]! * slow) / across;
    paced += step * PACES_ON[SURFACES[code]!] * (1 + PACES_PER_GRADIENT * Math.abs(gradient));
    before = p;
  }
  return { heights, step, seconds, paced };
}

function surfaceIn(ground: MappedGround, cell: number): number {
  const code = cell < 0 ? 1 : ground.cover.data[cell]!;
  return code < SURFACES.length ? code : 1;
}

/** Speed multiplier for walking across a slope in the direction (dx, dy). */
function sideways(ground: MappedGround, x: number, y: number, dx: number, dy: number): number {
  const east = sample(ground.relief.eastward, x, y);
  const north = sample(ground.relief.northward, x, y);
  const slope = length(east, north);
  const d = length(dx, dy);
  if (!(slope > 0) || d === 0) return 1;
  return sideSlopeSpeed(slope, Math.abs(east * dy - north * dx) / (slope * d));
}

/** Sums over the legs of a route; the profile is smoothed as one. */
export function routeFigures(
  legs: readonly Leg[],
  walking: Walking,
): { distanceMetres: number; climbMetres: number; descentMetres: number; minutes: number } {
  let metres = 0;
  let seconds = 0;
  const heights: number[] = [];
  for (const leg of legs) {
    const line = measured(leg.path, walking, isOnPath(leg, walking.ground));
    metres += lineLength(leg.path);
    seconds += line.seconds;
    for (const z of line.heights) heights.push(z);
  }
  return { distanceMetres: metres, ...climbOf(heights), minutes: seconds / 60 };
}

/** Height profile of a route: [metres along, height], every step of `measured`; missing heights are left out. */
export function profileOf(legs: readonly Leg[], walking: Walking): [number, number][] {
  const profile: [number, number][] = [];
  let walked = 0;
  for (const leg of legs) {
    const { heights, step } = measured(leg.path, walking, false);
    for (let i = profile.length === 0 ? 0 : 1; i < heights.length; i++) {
      if (Number.isFinite(heights[i]!)) profile.push([walked + i * step, heights[i]!]);
    }
    walked += lineLength(leg.path);
  }
  return profile;
}
