import type { Raster } from '../grid/raster.ts';

/** Ground cover codes of `Terrain.cover`, in the order of the surface columns of model.md 3. */
export const SURFACES = ['path', 'grass', 'heather', 'tussock', 'hag', 'boulder'] as const;
export type Surface = (typeof SURFACES)[number];

/** A terrain as it is read: heights in metres on square cells of a projected CRS, with where it comes from. */
export interface Terrain {
  readonly name: string;
  readonly crs: string;
  readonly elevation: Raster;
  readonly mapDate: string | null;
  readonly licence: string;
  readonly attribution: string;
  /** True for made-up ground. */
  readonly invented: boolean;
  /** Facts about the reading that a person should know (voids filled, cell size, reprojection error). */
  readonly notes: readonly string[];
}

/** What is derived from the elevation once and used everywhere. Same georeference as `elevation`. */
export interface Relief {
  /** Rise per metre towards grid east and towards grid north (Horn). NaN where a neighbour is missing. */
  readonly eastward: Raster;
  readonly northward: Raster;
  /** Upslope area in cells, this cell included (D8 on the filled surface). */
  readonly flow: Raster;
  /** Topographic wetness index ln(a / tan β). */
  readonly wetness: Raster;
}
