import type { Conditions } from '../../src/conditions/conditions.ts';
import { type MappedGround, mapGround } from '../../src/cost/mapped-ground.ts';
import { defaultDoubt } from '../../src/features/doubt.ts';
import type { Doubt, Feature, Geometry } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import type { Limits, Party, Skill, SkillLevel } from '../../src/party/party.ts';
import { DEFAULT_LIMITS, DEFAULT_PARTY, skillOf } from '../../src/party/presets.ts';
import type { Errand } from '../../src/route/drawn.ts';
import type { Leg, Route } from '../../src/route/leg.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import type { Terrain } from '../../src/terrain/terrain.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import type { World } from '../../src/walk/world.ts';

/** A square of ground with heights from a function of (east, north); origin of coordinates in its middle. */
export function plainTerrain(
  half = 2000,
  cell = 20,
  height: (e: number, n: number) => number = () => 300,
): Terrain {
  const n = Math.round((2 * half) / cell);
  const data = new Float32Array(n * n);
  for (let r = 0; r < n; r++)
    for (let c = 0; c < n; c++) data[r * n + c] = height(-half + (c + 0.5) * cell, half - (r + 0.5) * cell);
  return {
    name: 'plain',
    crs: 'EPSG:32630',
    elevation: { crs: 'EPSG:32630', west: -half, north: half, cell, columns: n, rows: n, data },
    mapDate: null,
    licence: '',
    attribution: '',
    invented: true,
    notes: [],
  };
}

export function feature(
  id: string,
  kind: FeatureKind,
  geometry: Geometry,
  doubt: Partial<Doubt> = {},
): Feature {
  // nothing stands beside it that no map shows, unless the bench says so
  const all = { ...defaultDoubt(kind), alike: 0, ...doubt };
  return { id, kind, geometry, given: doubt, doubt: all, origin: 'mapped' };
}

export const spot = (id: string, kind: FeatureKind, at: Point, doubt: Partial<Doubt> = {}): Feature =>
  feature(id, kind, { type: 'point', at }, doubt);

export const line = (id: string, kind: FeatureKind, points: Point[], doubt: Partial<Doubt> = {}): Feature =>
  feature(id, kind, { type: 'line', points }, doubt);

/** Drawn as it is. */
export const CERTAIN = { exists: 1, positionMetres: 0 } as const;

/** The bench of the scenarios: V 1000 m, slips and miscounts off, everything seen is recognised and noticed. */
export const BENCH_DAY: Conditions = {
  visibility: { below: 1000, above: 1000, cloudBase: null },
  ground: 'normal',
  light: 'day',
  wind: { metresPerSecond: 0, fromDegrees: 0 },
  date: null,
};

export function benchParty(level: SkillLevel, set: Partial<Skill> = {}): Party {
  return {
    ...DEFAULT_PARTY,
    skill: level,
    set: {
      ...skillOf(level),
      miscountPerKm: 0,
      reverseShare: 0,
      slipShare: 0,
      declinationShare: 0,
      recognisedShare: 1,
      noticedShare: 1,
      ...set,
    },
  };
}

export const BENCH_LIMITS: Limits = { ...DEFAULT_LIMITS, relaunches: 0, searchMinutes: 0 };

export interface Bench {
  terrain?: Terrain;
  features: Feature[];
  start: Point;
  target: Feature;
  party: Party;
  limits?: Limits;
  conditions?: Conditions;
  seeing?: 'definite' | 'lateral';
  stepMetres?: number;
  /** ρ on wander and pace scatter; the bench sets every other surface factor to 1. */
  rho?: number;
}

export function benchGround(bench: Pick<Bench, 'terrain' | 'features'>): MappedGround {
  const terrain = bench.terrain ?? plainTerrain();
  return mapGround(terrain, deriveRelief(terrain.elevation), bench.features);
}

export function benchWorld(bench: Bench, ground = benchGround(bench)): World {
  const at = bench.target.geometry.type === 'point' ? bench.target.geometry.at : ([0, 0] as const);
  const errand: Errand = {
    start: { at: bench.start, feature: null },
    target: { at, feature: bench.target },
    conditions: bench.conditions ?? BENCH_DAY,
    party: bench.party,
    limits: bench.limits ?? BENCH_LIMITS,
  };
  const world = prepareWorld(ground, errand, {
    seed: 1,
    seeing: bench.seeing ?? 'definite',
    ...(bench.stepMetres === undefined ? {} : { stepMetres: bench.stepMetres }),
  });
  const rho = bench.rho ?? 1;
  return {
    ...world,
    // no unmapped trods and cairns
    trodsPerM2: 0,
    cairnsPerM2: 0,
    roughWander: world.roughWander.map(() => rho),
    roughPace: world.roughPace.map(() => rho),
    roughDetection: world.roughDetection.map(() => 1),
    sidePace: world.sidePace.map(() => 1),
    sideSpeed: world.sideSpeed.map(() => 1),
  };
}

export function leg(technique: Leg['technique'], from: Point, to: Point, more: Partial<Leg> = {}): Leg {
  return { technique, from, to, path: [from, to], ticks: [], fine: false, ...more };
}

export function route(...legs: Leg[]): Route {
  return { id: 'r', name: 'r', origin: 'drawn', strategy: '', legs };
}
