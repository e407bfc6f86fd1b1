import { pow } from '../math/portable.ts';
import type { Doubt } from './feature.ts';
import type { FeatureKind } from './kinds.ts';

/** When a map was made and the day it is used, ISO dates; without a day nothing decays. */
export interface MapAge {
  readonly mapDate?: string | null;
  readonly date?: string | null;
}

type Row = readonly [
  exists: number,
  positionMetres: number,
  rangeMetres: number,
  visibility: Doubt['visibility'],
  contrast: number,
  alike?: number,
  extraPerGap?: number,
];

/*
 * Doubt per kind. Every number is common practice in the trade, no published source: editable defaults, not facts.
 * The three visibility classes are those of Koester et al. (2014), Wilderness Environ Med 25(2):132-142, which turn a
 * range into a sweep width (see `seeing/`); which kind falls in which class is common practice again.
 * Contrast: .5 dull, .8 contrasty, 1 large masses.
 */
const TABLE: Readonly<Record<FeatureKind, Row>> = {
  // lines
  wall: [0.97, 5, 400, 'high', 0.8],
  'ruined-wall': [0.85, 8, 60, 'medium', 0.5],
  fence: [0.85, 10, 150, 'medium', 0.5],
  track: [0.97, 6, 300, 'high', 0.8],
  // a path braids: three times in ten it looks like another class
  path: [0.85, 12, 30, 'medium', 0.5, 0.3],
  // a legal line need not exist on the ground
  'right-of-way': [0.5, 25, 10, 'low', 0.5],
  trod: [0.5, 25, 5, 'low', 0.5, 0.3],
  stream: [0.99, 6, 30, 'medium', 0.5],
  'small-stream': [0.9, 8, 15, 'low', 0.5],
  'forest-edge': [0.85, 15, 500, 'high', 1],
  'marsh-edge': [0.7, 30, 15, 'low', 0.5],
  ridge: [0.99, 20, 100, 'medium', 1],
  'break-of-slope': [0.8, 25, 60, 'low', 0.5],
  cliff: [0.97, 10, 300, 'high', 1],
  // points
  'stream-end': [0.9, 8, 10, 'low', 0.5],
  confluence: [0.98, 6, 25, 'medium', 0.5],
  junction: [0.93, 8, 30, 'medium', 0.5],
  crossing: [0.93, 8, 30, 'medium', 0.5],
  'line-end': [0.85, 10, 30, 'medium', 0.5],
  spring: [0.85, 12, 10, 'low', 0.5],
  well: [0.85, 12, 15, 'low', 0.5],
  tarn: [0.95, 8, 150, 'high', 0.8],
  pool: [0.5, 8, 20, 'low', 0.5],
  crag: [0.9, 10, 80, 'medium', 0.8, 0.3],
  boulder: [0.8, 10, 50, 'medium', 0.5, 0.3],
  cairn: [0.75, 8, 80, 'medium', 0.8],
  ruin: [0.97, 6, 200, 'high', 0.8],
  fold: [0.9, 6, 150, 'high', 0.8],
  // posts and stones stand in rows: each doubtful, and now and then one that no map shows
  post: [0.88, 10, 30, 'medium', 0.5, 0, 0.12],
  'boundary-stone': [0.8, 8, 25, 'low', 0.5, 0, 0.12],
  gate: [0.85, 8, 40, 'medium', 0.5],
  stile: [0.85, 8, 40, 'medium', 0.5],
  'wall-corner': [0.93, 6, 80, 'medium', 0.8],
  'fence-corner': [0.93, 6, 80, 'medium', 0.5],
  knoll: [0.95, 15, 200, 'high', 1],
  're-entrant': [0.95, 15, 100, 'medium', 1],
  spur: [0.95, 20, 100, 'medium', 1],
  col: [0.97, 20, 100, 'medium', 1],
  'flat-summit': [0.99, 30, 50, 'low', 0.5],
  bridge: [0.95, 6, 60, 'medium', 0.8],
  building: [0.97, 6, 300, 'high', 0.8],
  sinkhole: [0.95, 10, 20, 'low', 0.5, 0.3],
  tree: [0.8, 10, 150, 'medium', 0.8, 0.3],
  other: [0.8, 10, 30, 'medium', 0.5],
  // areas
  lake: [0.99, 8, 400, 'high', 0.8],
  forest: [0.85, 15, 500, 'high', 1],
  marsh: [0.7, 30, 15, 'low', 0.5],
  grass: [0.9, 30, 30, 'low', 0.5],
  heather: [0.9, 30, 30, 'low', 0.5],
  tussock: [0.9, 30, 15, 'low', 0.5],
  hag: [0.9, 30, 30, 'low', 0.5],
  'boulder-field': [0.97, 20, 80, 'medium', 0.8],
  scree: [0.97, 20, 150, 'medium', 0.8],
  'steep-ground': [0.97, 15, 100, 'medium', 1],
  // a rule, not a thing
  'out-of-bounds': [1, 10, 10, 'low', 0.5],
};

/** Unmapped members per square kilometre; common practice, no published source. */
export const EXTRAS_PER_KM2: Readonly<Partial<Record<FeatureKind, number>>> = { trod: 4, cairn: 0.5 };

const TIMBER = new Set<FeatureKind>(['fence', 'fence-corner', 'forest-edge', 'forest', 'tree']);
const BUILT = new Set<FeatureKind>([
  'wall',
  'ruined-wall',
  'track',
  'path',
  'right-of-way',
  'trod',
  'junction',
  'well',
  'cairn',
  'ruin',
  'fold',
  'post',
  'boundary-stone',
  'gate',
  'stile',
  'wall-corner',
  'bridge',
  'building',
]);

/** Share of a kind that vanishes per year: 3 % fences and forest, 1 % other man-made things, none of nature. Common practice. */
export function decayPerYear(kind: FeatureKind): number {
  return TIMBER.has(kind) ? 0.03 : BUILT.has(kind) ? 0.01 : 0;
}

/** The default doubt of a kind. */
export function defaultDoubt(kind: FeatureKind): Doubt {
  const [exists, positionMetres, rangeMetres, visibility, contrast, alike = 0, extraPerGap = 0] = TABLE[kind];
  return { exists, positionMetres, rangeMetres, visibility, contrast, alike, extraPerGap };
}

/**
 * Doubt of one feature: the kind's, overridden by the file, overridden by the task. The chance to exist holds on the day the
 * feature was last seen (else the map's date) and decays to `date`; a chance that the task itself gives is for the day and does not.
 */
export function doubtOf(
  kind: FeatureKind,
  given: Partial<Doubt>,
  override: Partial<Doubt> = {},
  age: MapAge = {},
): Doubt {
  const doubt = { ...defaultDoubt(kind), ...given, ...override };
  if (override.exists !== undefined) return doubt;
  const since = doubt.lastSeen ?? age.mapDate;
  if (!since || !age.date) return doubt;
  const years = yearsBetween(since, age.date);
  return years > 0 ? { ...doubt, exists: doubt.exists * pow(1 - decayPerYear(kind), years) } : doubt;
}

/** Years from one ISO date (a year, a month or a day) to another. NaN when either is none. */
export function yearsBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / (365.25 * 86_400_000);
}

/** Chance that a spring or well runs: in drought two in ten. Other kinds keep theirs. Common practice. */
export function existsInWetness(kind: FeatureKind, exists: number, ground: string): number {
  return ground === 'dry' && (kind === 'spring' || kind === 'well') ? Math.min(exists, 0.2) : exists;
}
