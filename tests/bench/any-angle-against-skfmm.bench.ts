import { anyAngleField } from '../../src/search/any-angle.ts';
import { type Bench, timed } from './bench.ts';
import { hills, middle, total, writeSurface } from './hills.ts';
import { pythonPeer } from './python-peer.ts';

const SIDE = 1000;

export const bench: Bench = {
  name: `any-angle field ${SIDE} × ${SIDE}, isotropic`,
  // at most 1.1 times the peer's time
  must: { ratio: 1 / 1.1 },
  rounds: 9,
  // two different approximations of the same field: first order in 45° sectors, second order on the axes
  agree: 0.01,
  async prepare(folder) {
    const ground = hills(SIDE);
    const factor = ground.factor.map((f) => (f < Infinity ? f : 3));
    const surface = { ...ground, factor, elevation: ground.elevation.map(() => 0) };
    writeSurface(surface, folder, middle(SIDE));
    return {
      data: 'flat, six kinds of ground, seed 1',
      ours: () => timed(() => anyAngleField(surface, [middle(SIDE)], 'from'), total),
      peer: await pythonPeer('skfmm_travel_time.py', 'skfmm', folder),
    };
  },
};
