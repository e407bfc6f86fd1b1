import { costField } from '../../src/search/field.ts';
import { type Bench, timed } from './bench.ts';
import { hills, middle, total, writeSurface } from './hills.ts';
import { pythonPeer } from './python-peer.ts';

const SIDE = 1000;

export const bench: Bench = {
  name: `isotropic field ${SIDE} × ${SIDE}, 8 neighbours`,
  must: { ratio: 5 },
  rounds: 9,
  agree: 1e-5,
  async prepare(folder) {
    const ground = hills(SIDE);
    // the peer squeezes between closed cells that touch at a corner; here none are closed
    const factor = ground.factor.map((f) => (f < Infinity ? f : 3));
    const surface = { ...ground, factor, elevation: ground.elevation.map(() => 0) };
    writeSurface(surface, folder, middle(SIDE));
    return {
      data: 'flat, six kinds of ground, seed 1',
      ours: () => timed(() => costField(surface, [middle(SIDE)], 'from'), total),
      peer: await pythonPeer('skimage_mcp.py', 'skimage.graph', folder),
    };
  },
};
