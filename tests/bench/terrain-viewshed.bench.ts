import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { centreEast, centreNorth } from '../../src/grid/raster.ts';
import { viewshed } from '../../src/terrain/viewshed.ts';
import { type Bench, timed } from './bench.ts';
import { ground, writeGround } from './ground.ts';
import { pythonPeer } from './python-peer.ts';

const SIDE = 2000;

export const bench: Bench = {
  name: `viewshed ${SIDE} × ${SIDE}, against a gdal_viewshed process`,
  must: { ratio: 3 },
  rounds: 5,
  // hidden cells; the same to 99.9 %
  agree: 1e-3,
  async prepare(folder) {
    const raster = ground(SIDE);
    writeGround(raster, folder);
    // the highest cell of the middle, so that much is seen
    let top = SIDE * (SIDE >> 1) + (SIDE >> 1);
    for (let r = SIDE / 4; r < (3 * SIDE) / 4; r++)
      for (let i = r * SIDE + SIDE / 4; i < r * SIDE + (3 * SIDE) / 4; i++)
        if (raster.data[i]! > raster.data[top]!) top = i;
    const east = centreEast(raster, top % SIDE);
    const north = centreNorth(raster, Math.floor(top / SIDE));
    writeFileSync(join(folder, 'place.json'), JSON.stringify({ east, north }));
    return {
      data: 'seed 1, eye 30 m up, the whole map in range',
      ours: () =>
        timed(
          () => viewshed(raster, east, north, 30, 0, Number.POSITIVE_INFINITY),
          (seen) => seen.reduce((sum, v) => sum + 1 - v, 0),
        ),
      peer: await pythonPeer('gdal_viewshed.py', 'osgeo.gdal', folder),
    };
  },
};
