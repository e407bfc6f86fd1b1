import type { FeatureKind } from '../../src/features/kinds.ts';

/** How kinds are grouped for drawing. Ours: quiet greys, blue for water, nothing filled that is not water. */
export type LineStyle =
  | 'water'
  | 'thin-water'
  | 'wall'
  | 'fence'
  | 'track'
  | 'path'
  | 'faint'
  | 'edge'
  | 'drop';
export type AreaStyle = 'lake' | 'wood' | 'mire' | 'rough' | 'stones' | 'barrier' | 'plain';
export type PointStyle = 'water' | 'built' | 'landform' | 'small';

const LINES: Readonly<Partial<Record<FeatureKind, LineStyle>>> = {
  stream: 'water',
  'small-stream': 'thin-water',
  wall: 'wall',
  'ruined-wall': 'wall',
  fence: 'fence',
  track: 'track',
  path: 'path',
  'right-of-way': 'faint',
  trod: 'faint',
  'forest-edge': 'edge',
  'marsh-edge': 'edge',
  ridge: 'edge',
  'break-of-slope': 'edge',
  cliff: 'drop',
};

const AREAS: Readonly<Partial<Record<FeatureKind, AreaStyle>>> = {
  lake: 'lake',
  tarn: 'lake',
  pool: 'lake',
  forest: 'wood',
  marsh: 'mire',
  heather: 'rough',
  tussock: 'rough',
  hag: 'rough',
  'boulder-field': 'stones',
  scree: 'stones',
  'steep-ground': 'barrier',
  'out-of-bounds': 'barrier',
  cliff: 'barrier',
};

const POINTS: Readonly<Partial<Record<FeatureKind, PointStyle>>> = {
  'stream-end': 'water',
  confluence: 'water',
  spring: 'water',
  well: 'water',
  tarn: 'water',
  pool: 'water',
  ruin: 'built',
  fold: 'built',
  building: 'built',
  bridge: 'built',
  gate: 'built',
  stile: 'built',
  knoll: 'landform',
  're-entrant': 'landform',
  spur: 'landform',
  col: 'landform',
  'flat-summit': 'landform',
  sinkhole: 'landform',
};

export function lineStyle(kind: FeatureKind): LineStyle {
  return LINES[kind] ?? 'edge';
}

export function areaStyle(kind: FeatureKind): AreaStyle {
  return AREAS[kind] ?? 'plain';
}

export function pointStyle(kind: FeatureKind): PointStyle {
  return POINTS[kind] ?? 'small';
}

/** Meetings and ends of lines show by the lines themselves; a sign on each would only clutter. */
export const UNSIGNED: ReadonlySet<FeatureKind> = new Set(['junction', 'crossing', 'line-end', 'confluence']);
