import { expect, test } from 'vitest';
import { readDamaged } from '../features/damaged-files.ts';
import { TEXT_DOORS } from '../study/damaged-texts.ts';

test.each(Object.entries(TEXT_DOORS))(
  '10 000 damaged texts: %s',
  (_, door) => {
    const tally = readDamaged(door, 1, 10_000);
    expect(tally.slowestMs).toBeLessThan(5000);
    expect(tally.mostBytes).toBeLessThan(1.5e9);
  },
  1_200_000,
);
