import type { Conditions } from '../conditions/conditions.ts';
import { dayFactors } from '../conditions/factors.ts';
import { surfaceFactors } from '../conditions/underfoot.ts';
import type { Raster } from '../grid/raster.ts';
import type { Limits, Party } from '../party/party.ts';
import { recognisableCells } from '../seeing/recognisable.ts';
import { speedModel } from '../speed/models.ts';
import { paceTable } from '../speed/pace-table.ts';
import { SURFACES } from '../terrain/terrain.ts';
import { barriers } from './layers/barrier.ts';
import { MARKLESS_CAP, marklessDistance } from './layers/markless.ts';
import { levelPace, slopeTime } from './layers/slope-time.ts';
import { surfaceLayer } from './layers/surface.ts';
import { wetnessLayer } from './layers/wetness.ts';
import type { MappedGround } from './mapped-ground.ts';
import { slownessOn } from './slowness.ts';
import type { CostLayer, CostSurface } from './surface.ts';

export type LayerName = CostLayer['name'];
export const LAYERS: readonly LayerName[] = ['slope-time', 'surface', 'wetness', 'barrier', 'markless'];

export interface CostOptions {
  /** Weight of markless ground: time × (1 + β·markless/500); 0 takes time alone. */
  readonly beta: number;
  /** Layers that take part; all of them unless said otherwise. */
  readonly layers?: readonly LayerName[];
}

/** A cost surface, and the layers it was added up from. */
export interface BuiltCost {
  readonly surface: CostSurface;
  readonly layers: readonly CostLayer[];
}

/** Everything of a day's cost but the weight β: made once, weighted as often as wanted. */
export interface PreparedCost {
  readonly elevation: Raster;
  readonly pace: Float32Array;
  /** Slowness of surface × wetness × the day, per cell; Infinity at a barrier. */
  readonly slowness: Float32Array;
  /** Metres, capped at 500; null when left out. */
  readonly markless: Float32Array | null;
  readonly layers: readonly CostLayer[];
}

/** One cost surface. For several weights prepare once and call `weighted`. */
export function buildCost(
  ground: MappedGround,
  conditions: Conditions,
  party: Party,
  limits: Limits,
  { beta, layers = LAYERS }: CostOptions,
): BuiltCost {
  const prepared = prepareCost(ground, conditions, party, limits, layers);
  return { surface: weighted(prepared, beta), layers: prepared.layers };
}

/** Adds the layers up. A layer left out changes nothing: level ground, short grass, dry ground, no barrier, marks everywhere. */
export function prepareCost(
  ground: MappedGround,
  conditions: Conditions,
  party: Party,
  limits: Limits,
  wanted: readonly LayerName[] = LAYERS,
): PreparedCost {
  const has = (name: LayerName) => wanted.includes(name);
  const { elevation } = ground.terrain;
  const model = speedModel(party.speed);
  const offPath = paceTable(model, false);
  const pace = has('slope-time') ? offPath : levelPace(offPath);
  const layers: CostLayer[] = [];
  if (has('slope-time'))
    layers.push({ name: 'slope-time', raster: slopeTime(ground.relief, pace), unit: 's/m' });

  const surface = has('surface') ? surfaceLayer(ground.cover, model) : null;
  if (surface !== null) layers.push({ name: 'surface', raster: surface, unit: '×' });

  const wet = has('wetness') ? wetnessLayer(ground.relief.wetness, ground.cover, conditions.ground) : null;
  if (wet !== null) layers.push({ name: 'wetness', raster: wet, unit: '×' });

  const closed = has('barrier') ? barriers(ground, conditions, limits) : null;
  if (closed !== null) {
    const raster = { ...closed, data: Float32Array.from(closed.data) };
    layers.push({ name: 'barrier', raster, unit: 'code of BARRIERS' });
  }
  const slowness = slownessOf(ground, conditions, surface, wet, closed);

  let markless: Float32Array | null = null;
  if (has('markless')) {
    const seen = recognisableCells(elevation, ground.cover, ground.features, conditions);
    markless = marklessDistance(elevation, seen.data, closed === null ? null : closed.data);
    layers.push({ name: 'markless', raster: { ...elevation, data: markless }, unit: 'm' });
  }
  return { elevation, pace, slowness, markless, layers };
}

/** The surface that the search walks on, for one weight β of markless ground. */
export function weighted({ elevation, pace, slowness, markless }: PreparedCost, beta: number): CostSurface {
  const { crs, west, north, cell, columns, rows, data } = elevation;
  let factor = slowness;
  if (markless !== null && beta > 0) {
    factor = new Float32Array(slowness.length);
    const k = beta / MARKLESS_CAP;
    for (let i = 0; i < factor.length; i++) factor[i] = slowness[i]! * (1 + k * markless[i]!);
  }
  return { crs, west, north, cell, columns, rows, elevation: data, factor, pace };
}

/** surface × wetness × the day at each cell's height; the product of all speed multipliers never falls below its bound. */
function slownessOf(
  ground: MappedGround,
  conditions: Conditions,
  surface: Raster | null,
  wet: Raster | null,
  closed: Raster<Uint8Array> | null,
): Float32Array {
  const heights = ground.terrain.elevation.data;
  const cover = ground.cover.data;
  const speeds = SURFACES.map((s) => surfaceFactors(s).speed);
  const grass = surfaceFactors('grass').speed;
  const { below, above } = dayFactors(conditions);
  const base = conditions.visibility.cloudBase ?? Number.POSITIVE_INFINITY;
  const factor = new Float32Array(heights.length);
  for (let i = 0; i < factor.length; i++) {
    if (closed !== null && closed.data[i] !== 0) {
      factor[i] = Number.POSITIVE_INFINITY;
      continue;
    }
    // wetness is a layer of its own, so the day's part is the one that holds on a path too
    const day = (heights[i]! > base ? above : below).onPath.speed;
    const slow = surface === null ? 1 : surface.data[i]!;
    const speed = surface === null ? grass : speeds[cover[i]!]!;
    factor[i] = slownessOn(slow, speed, day, wet === null ? 1 : wet.data[i]!);
  }
  return factor;
}
