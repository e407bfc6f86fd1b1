import { expect, it } from 'vitest';
import { damageAll } from '../terrain/hostile.ts';

it('10 000 damaged elevation files are read or refused, in bounded memory', async () => {
  const before = process.memoryUsage().rss;
  const { read, refused } = await damageAll(10_000, 7);
  expect(read + refused).toBe(10_000);
  expect(process.memoryUsage().rss - before).toBeLessThan(800e6);
}, 1_800_000);
