import type { Raster } from '../../grid/raster.ts';
import type { SpeedModel } from '../../speed/model.ts';
import { surfaceSlowness } from '../../speed/pace-table.ts';
import { SURFACES } from '../../terrain/terrain.ts';

/** Slowness of each cell's ground cover against the model's off-path table. */
export function surfaceLayer(cover: Raster<Uint8Array>, model: SpeedModel): Raster {
  const slowness = SURFACES.map((s) => surfaceSlowness(model, s));
  const data = new Float32Array(cover.data.length);
  for (let i = 0; i < data.length; i++) data[i] = slowness[cover.data[i]!]!;
  return { ...cover, data };
}
