import { expect, test } from 'vitest';
import { resolveRoute } from '../../src/route/resolve.ts';
import {
  BENCH_DAY,
  BENCH_LIMITS,
  benchGround,
  benchParty,
  plainTerrain,
  spot,
} from '../walk/plain-ground.ts';

const row = [1, 2, 3].map((i) => ({
  ...spot(`post-${i}`, 'post' as const, [0, 40 * i] as const),
  row: 'posts',
  rowPlace: i,
}));
const ground = benchGround({ terrain: plainTerrain(400, 40), features: row });
const target = row[2]!;
const errand = {
  start: { at: [0, 0] as const, feature: null },
  target: { at: [0, 120] as const, feature: target },
  conditions: BENCH_DAY,
  party: benchParty('competent'),
  limits: BENCH_LIMITS,
};

test('a drawn leg may count the members of the row that ends it', () => {
  const drawn = { name: 'by posts', legs: [{ technique: 'bearing', to: 'target', counting: true }] } as const;
  expect(resolveRoute(drawn, errand, ground, 'r').legs[0]!.counting).toBe(true);
  const paced = { name: 'paced', legs: [{ technique: 'bearing', to: 'target' }] } as const;
  expect(resolveRoute(paced, errand, ground, 'r').legs[0]!.counting).toBeUndefined();
});

test('a leg to a point in the open has nothing to count', () => {
  const legs = [
    { technique: 'bearing', to: { at: [60, 60] }, counting: true },
    { technique: 'bearing', to: 'target' },
  ] as const;
  expect(() => resolveRoute({ name: 'by posts', legs }, errand, ground, 'r')).toThrow(/nothing to count/);
});
