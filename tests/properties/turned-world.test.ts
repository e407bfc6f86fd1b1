import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Lay, layOf } from '../scenarios/turned.ts';
import { shareOf } from '../scenarios/walked.ts';
import { smallTask } from './open-ground.ts';

const TRIALS = 900;

function shares(lay: Lay): number[] {
  const t = smallTask(lay, { rho: 1.3 });
  return [t.byPath, t.aimedOff, t.straight].map((r) => shareOf(t.world, r, TRIALS));
}

test('turning or mirroring the whole world changes nothing beyond sampling noise', () => {
  const written = shares(layOf('as written', 0, 1));
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 359 }), fc.boolean(), (degrees, mirror) => {
      const now = shares(layOf('turned', degrees, 1, mirror));
      for (const [i, p] of written.entries())
        expect(Math.abs(now[i]! - p)).toBeLessThan(4 * Math.sqrt((2 * p * (1 - p)) / TRIALS));
    }),
    { seed: 3, numRuns: 3 },
  );
});
