import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { paintArea, paintLine } from '../grid/paint.ts';
import type { Georeference, Raster } from '../grid/raster.ts';
import { SURFACES, type Surface } from '../terrain/terrain.ts';

/** What one walks on in an area of a kind. Marsh, wood and scree take the nearest column; common practice, no published source. */
const AREA_SURFACE: Readonly<Partial<Record<FeatureKind, Surface>>> = {
  grass: 'grass',
  heather: 'heather',
  forest: 'heather',
  tussock: 'tussock',
  marsh: 'tussock',
  hag: 'hag',
  'boulder-field': 'boulder',
  scree: 'boulder',
};

const WAYS: ReadonlySet<FeatureKind> = new Set<FeatureKind>(['track', 'path']);

/** A way less likely than this to be there is not reckoned with as a path. */
const LIKELY = 0.5;

/** Ground cover per cell as codes of `SURFACES`: short grass where nothing is mapped, later areas over earlier ones, made ways on top. */
export function paintCover(g: Georeference, features: readonly Feature[]): Raster<Uint8Array> {
  const data = new Uint8Array(g.columns * g.rows).fill(SURFACES.indexOf('grass'));
  for (const { kind, geometry } of features) {
    const surface = AREA_SURFACE[kind];
    if (surface === undefined || geometry.type !== 'area') continue;
    const code = SURFACES.indexOf(surface);
    paintArea(g, geometry.rings, (i) => {
      data[i] = code;
    });
  }
  const path = SURFACES.indexOf('path');
  for (const { kind, geometry, doubt } of features) {
    if (!WAYS.has(kind) || geometry.type !== 'line' || doubt.exists < LIKELY) continue;
    paintLine(g, geometry.points, (i) => {
      data[i] = path;
    });
  }
  const { crs, west, north, cell, columns, rows } = g;
  return { crs, west, north, cell, columns, rows, data };
}
