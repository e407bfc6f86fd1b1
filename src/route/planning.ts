import { type DayFactors, dayFactors, visibilityAt } from '../conditions/factors.ts';
import { barriers } from '../cost/layers/barrier.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import { type FeatureIndex, indexFeatures, nearFeatures } from '../features/index-near.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { cellAt, type Raster } from '../grid/raster.ts';
import { traverse } from '../grid/traverse.ts';
import { distance, lineLength, type Point } from '../math/plane.ts';
import { isMark, reachOf } from '../seeing/recognisable.ts';
import { recognisedShare } from '../seeing/recognised.ts';
import { EYE_METRES, shownMetres } from '../seeing/shown-height.ts';
import { halfWidth } from '../seeing/sweep.ts';
import { sees } from '../terrain/line-of-sight.ts';
import type { Errand } from './drawn.ts';
import { type Walking, walkingOf } from './figures.ts';
import { heightAt, lineOf } from './map-line.ts';

/** A mapped line that can be followed. */
export interface Handrail {
  readonly feature: Feature;
  readonly points: readonly Point[];
  readonly metres: number;
}

/** Everything that the making of plans looks up, prepared once per task. */
export interface Planning {
  readonly errand: Errand;
  readonly ground: MappedGround;
  readonly walking: Walking;
  readonly day: DayFactors;
  readonly handrails: ReadonlyMap<string, Handrail>;
  readonly lines: FeatureIndex;
  /** Features that are points, or small areas that one can point at. */
  readonly spots: FeatureIndex;
  /** Marks that fix a party's place from afar, with the metres from which they do. */
  readonly landmarks: FeatureIndex;
  readonly landmarkReach: ReadonlyMap<string, number>;
  readonly farthestLandmark: number;
  /** The fix from each square of 40 m that was asked for; filled as plans ask. */
  readonly fixes: Map<number, Fix | null>;
  /** Metres along each line at which another way parts from it. */
  readonly forks: ReadonlyMap<string, readonly number[]>;
  /** Reason per cell, 0 open: what planning does not enter. */
  readonly closed: Raster<Uint8Array>;
}

export function planningOf(ground: MappedGround, errand: Errand): Planning {
  const handrails = new Map<string, Handrail>();
  const lines: Feature[] = [];
  const spots: Feature[] = [];
  for (const feature of ground.features) {
    if (feature.geometry.type === 'point') spots.push(feature);
    const points = lineOf(feature);
    if (!points || lineFamily(feature.kind) === null || feature.doubt.exists <= 0) continue;
    lines.push(feature);
    handrails.set(feature.id, { feature, points, metres: lineLength(points) });
  }
  const day = dayFactors(errand.conditions);
  const landmarkReach = landmarksOf(ground, errand, day, spots);
  return {
    errand,
    ground,
    walking: walkingOf(ground, errand),
    day,
    landmarks: indexFeatures(spots.filter((f) => landmarkReach.has(f.id))),
    landmarkReach,
    farthestLandmark: [...landmarkReach.values()].reduce((a, b) => Math.max(a, b), 0),
    fixes: new Map(),
    handrails,
    lines: indexFeatures(lines),
    spots: indexFeatures(spots),
    forks: forksOf(ground),
    closed: barriers(ground, errand.conditions, errand.limits),
  };
}

/** What is seen from nearer than this fixes nobody's place on the way, metres. */
const LEAST_LANDMARK = 50;

function landmarksOf(
  ground: MappedGround,
  errand: Errand,
  day: DayFactors,
  spots: readonly Feature[],
): Map<string, number> {
  const reach = new Map<string, number>();
  for (const feature of spots) {
    if (!isMark(feature)) continue;
    const { below, above } = reachOf(feature, ground.cover, errand.conditions, day);
    const g = feature.geometry;
    const at = g.type === 'point' ? g.at : errand.target.at;
    const { cloudBase } = errand.conditions.visibility;
    const high = cloudBase !== null && heightAt(ground, at) > cloudBase;
    const half = halfWidth(feature.doubt, high ? above : below);
    if (half >= LEAST_LANDMARK) reach.set(feature.id, half);
  }
  return reach;
}

/** A landmark in view: SD in metres to which it fixes a place (3° of its distance, 10 m at least), and the share of parties that it does so for. */
export interface Fix {
  readonly sd: number;
  readonly share: number;
}

/** The best fix from a place, to the nearest 40 m; null when no landmark is in view. */
export function fixAt(planning: Planning, at: Point): Fix | null {
  const column = Math.round(at[0] / FIX_SQUARE);
  const row = Math.round(at[1] / FIX_SQUARE);
  const key = row * 1e7 + column;
  let fix = planning.fixes.get(key);
  if (fix === undefined) {
    fix = nearestInView(planning, [column * FIX_SQUARE, row * FIX_SQUARE]);
    planning.fixes.set(key, fix);
  }
  return fix;
}

function nearestInView(planning: Planning, at: Point): Fix | null {
  const { landmarks, landmarkReach, ground } = planning;
  const { elevation } = ground.terrain;
  const most = Math.min(MOST_LANDMARK, planning.farthestLandmark);
  const near = nearFeatures(landmarks, at[0], at[1], most)
    .map((i) => landmarks.features[i]!)
    .flatMap((feature) => {
      const g = feature.geometry;
      return g.type === 'point' ? [{ feature, to: g.at, d: distance(at, g.at) }] : [];
    })
    .filter(({ feature, d }) => d <= landmarkReach.get(feature.id)!)
    .sort((a, b) => a.d - b.d);
  for (const { feature, to, d } of near.slice(0, MOST_LOOKS)) {
    if (!sees(elevation, at[0], at[1], EYE_METRES, to[0], to[1], shownMetres(feature.kind))) continue;
    return { sd: Math.max(10, FIX_ANGLE * d), share: knownShare(planning, feature) };
  }
  return null;
}

const FIX_SQUARE = 40;
/** Landmarks looked for from one place, the nearest first. */
const MOST_LOOKS = 12;
const MOST_LANDMARK = 1500;
/** 3° in radians: what a bearing on a landmark is worth. */
const FIX_ANGLE = 0.0524;

function forksOf(ground: MappedGround): Map<string, number[]> {
  const forks = new Map<string, number[]>();
  for (const place of ground.network.places) {
    if (place.kind !== 'junction' && place.kind !== 'crossing' && place.kind !== 'confluence') continue;
    for (const { feature, along } of place.on) {
      const known = forks.get(feature);
      if (known) known.push(along);
      else forks.set(feature, [along]);
    }
  }
  return forks;
}

/** A mapped feature, or the target where the task alone knows it. */
export function featureById(planning: Planning, id: string): Feature | undefined {
  const { target } = planning.errand;
  return id === target.feature.id ? target.feature : planning.ground.byId.get(id);
}

/** Lines that come within `range` metres of a place, in the order of the features. */
export function linesNear(planning: Planning, at: Point, range: number): Handrail[] {
  return nearFeatures(planning.lines, at[0], at[1], range).map(
    (i) => planning.handrails.get(planning.lines.features[i]!.id)!,
  );
}

/** Point features within `range` metres of a place, in the order of the features. */
export function spotsNear(planning: Planning, at: Point, range: number): Feature[] {
  return nearFeatures(planning.spots, at[0], at[1], range).map((i) => planning.spots.features[i]!);
}

/** Whether a straight walk between two places enters closed ground. The cells of its ends do not count. */
export function isBlocked(planning: Planning, a: Point, b: Point): boolean {
  const { closed } = planning;
  const from = cellAt(closed, a[0], a[1]);
  const to = cellAt(closed, b[0], b[1]);
  let blocked = false;
  traverse(closed, a[0], a[1], b[0], b[1], (cell, metres) => {
    if (metres > 0 && closed.data[cell] !== 0 && cell !== from && cell !== to) blocked = true;
  });
  return blocked;
}

/** Whether any stretch of a path is closed. */
export function isPathBlocked(planning: Planning, path: readonly Point[]): boolean {
  for (let i = 1; i < path.length; i++) if (isBlocked(planning, path[i - 1]!, path[i]!)) return true;
  return false;
}

/** Half the sweep width of a feature on this day where it stands, metres: a walk that comes so near finds it. */
export function seenWithin(planning: Planning, feature: Feature): number {
  const { ground, errand } = planning;
  const g = feature.geometry;
  const at = g.type === 'point' ? g.at : errand.target.at;
  const visibility = visibilityAt(errand.conditions, heightAt(ground, at));
  return halfWidth(feature.doubt, rangeOf(planning, feature, visibility));
}

function rangeOf(planning: Planning, feature: Feature, visibility: number): number {
  const reach = reachOf(feature, planning.ground.cover, planning.errand.conditions, planning.day);
  return visibility === planning.day.below.visibilityMetres ? reach.below : reach.above;
}

/** Whether a feature can be made out from a place: within its range on this day, and nothing in between. */
export function inSight(planning: Planning, from: Point, feature: Feature): boolean {
  const g = feature.geometry;
  if (g.type !== 'point') return false;
  const visibility = visibilityAt(planning.errand.conditions, heightAt(planning.ground, from));
  if (distance(from, g.at) > rangeOf(planning, feature, visibility)) return false;
  const shown = shownMetres(feature.kind);
  return sees(planning.ground.terrain.elevation, from[0], from[1], EYE_METRES, g.at[0], g.at[1], shown);
}

/** Chance that a party that comes by finds and knows a feature: it is there, and it is recognised. */
export function knownShare(planning: Planning, feature: Feature): number {
  return feature.doubt.exists * recognisedShare(planning.errand.party.set, feature.doubt);
}
