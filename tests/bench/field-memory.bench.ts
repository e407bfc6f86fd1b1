import { costField } from '../../src/search/field.ts';
import type { Bench } from './bench.ts';
import { hills, middle, total } from './hills.ts';

const SIDE = 4000;

/** Peak memory of this process; the figures only grow, so the bench that needs most runs in a process of its own. */
function peak(): number {
  return process.resourceUsage().maxRSS * 1024;
}

const whole: Bench = {
  name: `memory of a field ${SIDE} × ${SIDE}, whole process`,
  must: { most: 500, unit: 'MB' },
  rounds: 0,
  agree: 0,
  async prepare() {
    const surface = hills(SIDE);
    return {
      data: 'hills, seed 1, surface included',
      ours: () => {
        const field = costField(surface, [middle(SIDE)], 'from');
        return { amount: peak() / 1e6, checksum: total(field) };
      },
    };
  },
};

const state: Bench = {
  name: `search state of a field ${SIDE} × ${SIDE}, result included`,
  must: { most: 40, unit: 'B per cell' },
  rounds: 0,
  agree: 0,
  async prepare() {
    const surface = hills(SIDE);
    const before = peak();
    return {
      data: 'growth of the peak while searching',
      ours: () => {
        const field = costField(surface, [middle(SIDE)], 'from');
        return { amount: (peak() - before) / (SIDE * SIDE), checksum: total(field) };
      },
    };
  },
};

export const bench = [state, whole];
