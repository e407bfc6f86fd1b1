import type { Feature } from '../features/feature.ts';
import type { LineNetwork } from '../features/network.ts';
import type { Raster } from '../grid/raster.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';

/** What the map says of the ground: all that planning may use. One georeference throughout. */
export interface MappedGround {
  readonly terrain: Terrain;
  readonly relief: Relief;
  /** Code of `SURFACES` per cell. */
  readonly cover: Raster<Uint8Array>;
  /** Mapped features and the places derived from them (junctions, stream ends, corners …). */
  readonly features: readonly Feature[];
  readonly byId: ReadonlyMap<string, Feature>;
  readonly network: LineNetwork;
  /** Whether the terrain maps any hazard (cliff, steep ground); if not, hazards are "not assessed". */
  readonly hazardsMapped: boolean;
  /** Metres to the nearest mapped hazard; Infinity beyond `HAZARD_REACH` or where none is mapped. */
  readonly hazard: Raster;
}
