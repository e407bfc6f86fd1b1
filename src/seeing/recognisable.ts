import type { Conditions } from '../conditions/conditions.ts';
import { type DayFactors, dayFactors } from '../conditions/factors.ts';
import { surfaceFactors } from '../conditions/underfoot.ts';
import { placeOf } from '../features/areas.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { cellAt, type Raster } from '../grid/raster.ts';
import { SURFACES } from '../terrain/terrain.ts';
import { detectionFactor, detectionRange } from './range.ts';
import { FROM_ABOVE, FROM_BELOW, type Reach, type View, viewOf } from './view.ts';

/** Ground cover and rules have no place that one could point at. */
const NO_MARK: ReadonlySet<FeatureKind> = new Set<FeatureKind>([
  'grass',
  'heather',
  'tussock',
  'hag',
  'marsh',
  'out-of-bounds',
]);

/** A mark to plan by is likely there (≥ .7) and lies where it is drawn to 20 m. Common practice, no published source. */
export function isMark(feature: Feature): boolean {
  const { exists, positionMetres } = feature.doubt;
  return exists >= 0.7 && positionMetres <= 20 && !NO_MARK.has(feature.kind);
}

/** How far a feature can be made out below and above the cloud base, with the cover about it. */
export function reachOf(
  feature: Feature,
  cover: Raster<Uint8Array>,
  conditions: Conditions,
  day: DayFactors = dayFactors(conditions),
): Reach {
  const [east, north] = placeOf(feature);
  const cell = cellAt(cover, east, north);
  const surface = surfaceFactors(SURFACES[cell < 0 ? 1 : cover.data[cell]!] ?? 'grass');
  const range = (air: DayFactors['below']) =>
    detectionRange(
      feature.doubt,
      air.visibilityMetres,
      detectionFactor(feature.kind, air, surface.detection, conditions.ground),
      conditions.light,
    );
  return { below: range(day.below), above: range(day.above) };
}

/** Cells finer than this are looked at in blocks: what is in view changes little over ten metres, and the work grows with the square. */
const LOOK_METRES = 10;

/** 1 where something recognisable is in view in the visibility of the cell's own height, under the mean cloud base. */
export function recognisableCells(
  elevation: Raster,
  cover: Raster<Uint8Array>,
  features: readonly Feature[],
  conditions: Conditions,
): Raster<Uint8Array> {
  const block = Math.max(1, Math.floor(LOOK_METRES / elevation.cell));
  const ground = block === 1 ? elevation : thinned(elevation, block);
  const base = conditions.visibility.cloudBase ?? Number.POSITIVE_INFINITY;
  const day = dayFactors(conditions);
  const seen = new Uint8Array(ground.columns * ground.rows);
  for (const feature of features) {
    if (!isMark(feature)) continue;
    const reach = reachOf(feature, cover, conditions, day);
    addView(seen, ground, viewOf(ground, feature, base === Infinity ? { ...reach, above: 0 } : reach), base);
  }
  return { ...elevation, data: block === 1 ? seen : spread(seen, ground.columns, elevation, block) };
}

function addView(seen: Uint8Array, ground: Raster, view: View, cloudBase: number): void {
  for (let r = 0, k = 0; r < view.rows; r++) {
    let i = (view.row + r) * ground.columns + view.column;
    for (let c = 0; c < view.columns; c++, k++, i++) {
      const bits = view.seen[k]!;
      if (bits !== 0 && (bits & (ground.data[i]! > cloudBase ? FROM_ABOVE : FROM_BELOW)) !== 0) seen[i] = 1;
    }
  }
}

/** Every block-th cell, from the middle of its block; blocks at the east and south edge may hang over it. */
function thinned(raster: Raster, block: number): Raster {
  const columns = Math.ceil(raster.columns / block);
  const rows = Math.ceil(raster.rows / block);
  const middle = Math.floor(block / 2);
  const data = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    const from = Math.min(r * block + middle, raster.rows - 1) * raster.columns;
    for (let c = 0; c < columns; c++)
      data[r * columns + c] = raster.data[from + Math.min(c * block + middle, raster.columns - 1)]!;
  }
  return { ...raster, cell: raster.cell * block, columns, rows, data };
}

function spread(seen: Uint8Array, columns: number, to: Raster, block: number): Uint8Array {
  const data = new Uint8Array(to.columns * to.rows);
  for (let r = 0, i = 0; r < to.rows; r++) {
    const from = Math.floor(r / block) * columns;
    for (let c = 0; c < to.columns; c++, i++) data[i] = seen[from + Math.floor(c / block)]!;
  }
  return data;
}
