import type { Feature } from '../features/feature.ts';
import { placesAsFeatures, type StatedDoubts } from '../features/named-places.ts';
import { buildNetwork, type LineNetwork } from '../features/network.ts';
import { type Raster, sample } from '../grid/raster.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import { paintCover } from './cover.ts';
import { hazardDistance, mapsHazards } from './hazard.ts';

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
  /** Whether the map shows any hazard (cliff, steep ground); if not, hazards are "not assessed". */
  readonly hazardsMapped: boolean;
  /** Metres to the nearest mapped hazard, exact up to `HAZARD_REACH`; Infinity beyond it or where none is mapped. */
  readonly hazard: Raster;
}

/** Everything that follows from terrain and features alone, once per task; `stated` are doubts about derived places. */
export function mapGround(
  terrain: Terrain,
  relief: Relief,
  mapped: readonly Feature[],
  stated: StatedDoubts = {},
): MappedGround {
  const { elevation } = terrain;
  const network = buildNetwork(mapped, {
    heightAt: (east, north) => sample(elevation, east, north),
  });
  const features = [...mapped, ...placesAsFeatures(network, mapped, stated)];
  return {
    terrain,
    relief,
    cover: paintCover(elevation, mapped),
    features,
    byId: new Map(features.map((f) => [f.id, f])),
    network,
    hazardsMapped: mapsHazards(mapped),
    hazard: hazardDistance(elevation, mapped),
  };
}
