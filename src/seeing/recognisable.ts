import type { Conditions } from '../conditions/conditions.ts';
import { type DayFactors, dayFactors } from '../conditions/factors.ts';
import { surfaceFactors } from '../conditions/underfoot.ts';
import { placeOf } from '../features/areas.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { cellAt, type Raster } from '../grid/raster.ts';
import { SURFACES } from '../terrain/terrain.ts';
import { detectionFactor, detectionRange } from './range.ts';
import { FROM_ABOVE, FROM_BELOW, type Reach, viewOf } from './view.ts';

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

/** 1 where something recognisable is in view in the visibility of the cell's own height, under the mean cloud base. */
export function recognisableCells(
  elevation: Raster,
  cover: Raster<Uint8Array>,
  features: readonly Feature[],
  conditions: Conditions,
): Raster<Uint8Array> {
  const { columns, rows } = elevation;
  const base = conditions.visibility.cloudBase ?? Number.POSITIVE_INFINITY;
  const day = dayFactors(conditions);
  const data = new Uint8Array(columns * rows);
  for (const feature of features) {
    if (!isMark(feature)) continue;
    const reach = reachOf(feature, cover, conditions, day);
    const view = viewOf(elevation, feature, base === Infinity ? { ...reach, above: 0 } : reach);
    for (let r = 0, k = 0; r < view.rows; r++) {
      let i = (view.row + r) * columns + view.column;
      for (let c = 0; c < view.columns; c++, k++, i++) {
        const bits = view.seen[k]!;
        if (bits !== 0 && (bits & (elevation.data[i]! > base ? FROM_ABOVE : FROM_BELOW)) !== 0) data[i] = 1;
      }
    }
  }
  return { ...elevation, data };
}
