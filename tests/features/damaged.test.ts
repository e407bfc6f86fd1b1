import { expect, test } from 'vitest';
import { DOORS, readDamaged } from './damaged-files.ts';

test.each(Object.entries(DOORS))('300 damaged files: %s', (_, door) => {
  const tally = readDamaged(door, 1, 300);
  // both happen, or the damage is none or total
  expect(tally.read).toBeGreaterThan(3);
  expect(tally.refused).toBeGreaterThan(30);
  expect(tally.slowestMs).toBeLessThan(5000);
});
