import { expect, test } from 'vitest';
import { readDamaged } from '../features/damaged-files.ts';
import { TEXT_DOORS } from './damaged-texts.ts';

test.each(Object.entries(TEXT_DOORS))('300 damaged texts: %s', (_, door) => {
  const tally = readDamaged(door, 1, 300);
  // both happen, or the damage is none or total
  expect(tally.read).toBeGreaterThan(3);
  expect(tally.refused).toBeGreaterThan(30);
  expect(tally.slowestMs).toBeLessThan(5000);
});
