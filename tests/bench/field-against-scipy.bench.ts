import { costField } from '../../src/search/field.ts';
import type { Bench } from './bench.ts';
import { timed } from './bench.ts';
import { hills, middle, total, writeSurface } from './hills.ts';
import { pythonPeer } from './python-peer.ts';

function field(side: number, ratio: number): Bench {
  return {
    name: `anisotropic field ${side} × ${side}, 8 neighbours`,
    must: { ratio },
    rounds: 5,
    agree: 5e-6,
    async prepare(folder) {
      const surface = hills(side);
      writeSurface(surface, folder, middle(side));
      return {
        data: 'hills, seed 1, 2 % closed',
        ours: () => timed(() => costField(surface, [middle(side)], 'from'), total),
        peer: await pythonPeer('scipy_dijkstra.py', 'scipy.sparse.csgraph', folder),
      };
    },
  };
}

export const bench = [field(1000, 4), field(2000, 5)];
