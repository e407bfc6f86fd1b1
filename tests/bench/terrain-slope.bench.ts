import { gradient } from '../../src/terrain/gradient.ts';
import { type Bench, timed } from './bench.ts';
import { ground, writeGround } from './ground.ts';
import { pythonPeer } from './python-peer.ts';

const SIDE = 4000;

export const bench: Bench = {
  name: `Horn gradient ${SIDE} × ${SIDE}, both components, against GDAL's slope in process`,
  must: { ratio: 2 },
  rounds: 5,
  agree: 1e-4,
  async prepare(folder) {
    const raster = ground(SIDE);
    writeGround(raster, folder);
    return {
      data: 'seed 1',
      ours: () =>
        timed(
          () => gradient(raster),
          ({ eastward, northward }) => {
            let sum = 0;
            for (let i = 0; i < eastward.data.length; i++) {
              const percent = 100 * Math.hypot(eastward.data[i]!, northward.data[i]!);
              if (!Number.isNaN(percent)) sum += percent;
            }
            return sum;
          },
        ),
      peer: await pythonPeer('gdal_slope.py', 'osgeo.gdal', folder),
    };
  },
};
