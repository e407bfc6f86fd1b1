import type { Conditions } from '../../conditions/conditions.ts';
import { visibilityAt } from '../../conditions/factors.ts';
import type { Feature } from '../../features/feature.ts';
import { paintArea, paintLine } from '../../grid/paint.ts';
import { centreEast, centreNorth, type Georeference, type Raster } from '../../grid/raster.ts';
import { RADIANS } from '../../math/bearing.ts';
import { length } from '../../math/plane.ts';
import { tan } from '../../math/portable.ts';
import type { Limits } from '../../party/party.ts';
import { hazardBuffer } from '../hazard.ts';
import type { MappedGround } from '../mapped-ground.ts';

/** Why a cell is closed; a code per cell, 0 open. Later reasons overwrite earlier ones. */
export const BARRIERS = [
  'open',
  'slope over the limit',
  'edge of a mapped drop',
  'stream in spate',
  'water',
  'out of bounds',
] as const;

const OPEN = 0;
const STEEP = 1;
const DROP = 2;
const SPATE = 3;
const WATER = 4;
const OUT = 5;
const PATH = 0;

/** A mapped bridge opens a stream in spate this far about it, metres. */
const BRIDGE_METRES = 20;

/**
 * Cells that planning does not enter: slope over the limit, the buffer of a mapped drop, streams in spate, standing water, ground
 * out of bounds. A mapped way stays open through slope, buffer and water, since somebody walks it; never out of bounds.
 */
export function barriers(ground: MappedGround, conditions: Conditions, limits: Limits): Raster<Uint8Array> {
  const { elevation } = ground.terrain;
  const { columns, rows } = elevation;
  const data = new Uint8Array(columns * rows);
  closeSteep(ground, limits, data);
  closeDrops(ground, conditions, data);
  if (conditions.ground === 'spate') closeSpate(elevation, ground.features, data);
  for (const { kind, geometry } of ground.features) {
    if ((kind === 'lake' || kind === 'tarn') && geometry.type === 'area') {
      paintArea(elevation, geometry.rings, (i) => {
        data[i] = WATER;
      });
    }
  }
  const cover = ground.cover.data;
  for (let i = 0; i < data.length; i++) if (cover[i] === PATH && data[i] !== SPATE) data[i] = OPEN;
  for (const { kind, geometry } of ground.features) {
    if (kind !== 'out-of-bounds' || geometry.type !== 'area') continue;
    paintArea(elevation, geometry.rings, (i) => {
      data[i] = OUT;
    });
  }
  return { ...elevation, data };
}

function closeSteep({ relief }: MappedGround, limits: Limits, data: Uint8Array): void {
  const limit = tan(limits.slopeDegrees * RADIANS);
  const east = relief.eastward.data;
  const north = relief.northward.data;
  // squares compared: no root per cell
  for (let i = 0; i < data.length; i++)
    if (east[i]! * east[i]! + north[i]! * north[i]! > limit * limit) data[i] = STEEP;
}

function closeDrops(
  { hazardsMapped, hazard, terrain }: MappedGround,
  conditions: Conditions,
  data: Uint8Array,
) {
  if (!hazardsMapped) return;
  const heights = terrain.elevation.data;
  for (let i = 0; i < data.length; i++) {
    const metres = hazard.data[i]!;
    if (metres === Number.POSITIVE_INFINITY) continue;
    if (metres <= hazardBuffer(visibilityAt(conditions, heights[i]!), conditions.light)) data[i] = DROP;
  }
}

/** Mapped streams (not small ones) close in spate, but for bridges and where a track crosses. */
function closeSpate(g: Georeference, features: readonly Feature[], data: Uint8Array): void {
  const dry = new Uint8Array(data.length);
  for (const { kind, geometry } of features) {
    if (kind === 'track' && geometry.type === 'line')
      paintLine(g, geometry.points, (i) => {
        dry[i] = 1;
      });
    if (kind === 'bridge' && geometry.type === 'point') openAbout(g, geometry.at, dry);
  }
  for (const { kind, geometry } of features) {
    if (kind !== 'stream' || geometry.type !== 'line') continue;
    paintLine(g, geometry.points, (i) => {
      if (dry[i] === 0) data[i] = SPATE;
    });
  }
}

function openAbout(g: Georeference, [east, north]: readonly [number, number], dry: Uint8Array): void {
  const n = Math.ceil(BRIDGE_METRES / g.cell);
  const c0 = Math.floor((east - g.west) / g.cell);
  const r0 = Math.floor((g.north - north) / g.cell);
  for (let r = Math.max(0, r0 - n); r <= Math.min(g.rows - 1, r0 + n); r++) {
    for (let c = Math.max(0, c0 - n); c <= Math.min(g.columns - 1, c0 + n); c++) {
      const away = length(centreEast(g, c) - east, centreNorth(g, r) - north);
      // the cell that holds the bridge is open however coarse the raster
      if (away <= BRIDGE_METRES || (c === c0 && r === r0)) dry[r * g.columns + c] = 1;
    }
  }
}
