import { expect, test } from 'vitest';
import { DOORS, readDamaged } from '../features/damaged-files.ts';

test.each(Object.entries(DOORS))(
  '10 000 damaged files: %s',
  (_, door) => {
    const tally = readDamaged(door, 1, 10_000);
    expect(tally.slowestMs).toBeLessThan(5000);
    expect(tally.mostBytes).toBeLessThan(1.5e9);
  },
  1_200_000,
);
