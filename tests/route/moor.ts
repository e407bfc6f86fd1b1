/** A small invented ground of plain geometry, for closed forms and drawn plans: 3 × 3 km at 10 m, origin in its south-west corner. */
import type { Conditions } from '../../src/conditions/conditions.ts';
import { type MappedGround, mapGround } from '../../src/cost/mapped-ground.ts';
import { doubtOf } from '../../src/features/doubt.ts';
import type { Doubt, Feature, Geometry } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import type { Party } from '../../src/party/party.ts';
import { DEFAULT_LIMITS, DEFAULT_PARTY, skillOf } from '../../src/party/presets.ts';
import type { Errand } from '../../src/route/drawn.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';

export const CLEAR: Conditions = {
  visibility: { below: 1000, above: 1000, cloudBase: null },
  ground: 'normal',
  light: 'day',
  wind: { metresPerSecond: 0, fromDegrees: 0 },
  date: null,
};

export function point(id: string, kind: FeatureKind, at: Point, given: Partial<Doubt> = {}): Feature {
  return feature(id, kind, { type: 'point', at }, given);
}

export function line(id: string, kind: FeatureKind, ...points: Point[]): Feature {
  return feature(id, kind, { type: 'line', points }, {});
}

export function area(id: string, kind: FeatureKind, ...ring: Point[]): Feature {
  return feature(id, kind, { type: 'area', rings: [[...ring, ring[0]!]] }, {});
}

function feature(id: string, kind: FeatureKind, geometry: Geometry, given: Partial<Doubt>): Feature {
  return { id, kind, geometry, given, doubt: doubtOf(kind, given), origin: 'mapped' };
}

export interface MoorOptions {
  readonly height?: (east: number, north: number) => number;
  /** Code of SURFACES; 1, short grass, by default. */
  readonly cover?: (east: number, north: number) => number;
  /** Topographic wetness index, the same everywhere; 0, where no water gathers, by default. */
  readonly wetnessIndex?: number;
  readonly size?: number;
  readonly cell?: number;
}

export function moor(features: readonly Feature[], options: MoorOptions = {}): MappedGround {
  const { height = () => 300, cover = () => 1, size = 3000, cell = 10 } = options;
  const columns = size / cell;
  const at = { crs: 'EPSG:27700', west: 0, north: size, cell, columns, rows: columns };
  const z = new Float32Array(columns * columns);
  const surface = new Uint8Array(columns * columns);
  for (let i = 0; i < z.length; i++) {
    const east = ((i % columns) + 0.5) * cell;
    const north = size - (Math.floor(i / columns) + 0.5) * cell;
    z[i] = height(east, north);
    surface[i] = cover(east, north);
  }
  const elevation = { ...at, data: z };
  const terrain = {
    name: 'plain moor',
    crs: at.crs,
    elevation,
    mapDate: null,
    licence: 'none',
    attribution: 'invented',
    invented: true,
    notes: [],
  };
  // a plain gathers water everywhere by its index; a moor of closed forms is as dry as its day
  const wetness = { ...at, data: new Float32Array(z.length).fill(options.wetnessIndex ?? 0) };
  const ground = mapGround(terrain, { ...deriveRelief(elevation), wetness }, features);
  return options.cover === undefined ? ground : { ...ground, cover: { ...at, data: surface } };
}

export function errand(
  start: Point,
  target: Feature,
  skill: Party['skill'] = 'competent',
  conditions: Conditions = CLEAR,
): Errand {
  const at = target.geometry.type === 'point' ? target.geometry.at : ([0, 0] as const);
  return {
    start: { at: start, feature: null },
    target: { at, feature: target },
    conditions,
    party: { ...DEFAULT_PARTY, skill, set: skillOf(skill) },
    limits: DEFAULT_LIMITS,
  };
}
