import { expect, test } from 'vitest';
import { smallTask } from '../properties/open-ground.ts';
import { AS_WRITTEN } from '../scenarios/turned.ts';
import { shareOf } from '../scenarios/walked.ts';

test.each(['byPath', 'aimedOff', 'straight'] as const)(
  'no share changes by more than .01 with the step, %s',
  (name) => {
    const share = (stepMetres: number) => {
      const t = smallTask(AS_WRITTEN, { stepMetres });
      return shareOf(t.world, t[name], 20_000);
    };
    const usual = share(10);
    expect(Math.abs(share(5) - usual)).toBeLessThanOrEqual(0.01);
    expect(Math.abs(share(20) - usual)).toBeLessThanOrEqual(0.01);
  },
);
