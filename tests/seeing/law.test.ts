import { expect, test } from 'vitest';
import { lateralChance, lateralScale, rangeOfDraw, seeingRadius } from '../../src/seeing/law.ts';

const W = 24;

test('the lateral curve encloses the sweep width', () => {
  const b = lateralScale(W);
  const step = 0.01;
  let area = 0;
  for (let x = -10 * W; x < 10 * W; x += step) area += lateralChance(b, x + step / 2) * step;
  expect(area).toBeCloseTo(W, 6);
  expect(lateralChance(b, 0)).toBe(1);
});

test('one draw per pass has the chances of the curve', () => {
  // strata of U instead of random numbers: the share with R > x must be p(x)
  const b = lateralScale(W);
  const n = 100_000;
  const radii = Float64Array.from({ length: n }, (_, i) => rangeOfDraw(b, (i + 0.5) / n));
  for (const x of [1, 5, 10, 13.5, 20, 30]) {
    const share = radii.reduce((k, r) => (r > x ? k + 1 : k), 0) / n;
    expect(Math.abs(share - lateralChance(b, x))).toBeLessThan(2 / n);
  }
  // twice the mean radius is the sweep width
  expect((2 * radii.reduce((s, r) => s + r, 0)) / n).toBeCloseTo(W, 2);
});

test('the definite law is half the sweep width whatever is drawn', () => {
  expect(seeingRadius('definite', W, 0.1)).toBe(12);
  expect(seeingRadius('definite', W, 0.9)).toBe(12);
  expect(seeingRadius('lateral', W, 0.1)).toBeGreaterThan(seeingRadius('lateral', W, 0.9));
  expect(seeingRadius('lateral', 0, 0.5)).toBe(0);
});

test('a thing of no sweep width is never seen, and chances fall by e at b metres', () => {
  expect(lateralChance(0, 0)).toBe(0);
  expect(lateralChance(-1, 3)).toBe(0);
  expect(lateralChance(12, 12)).toBeCloseTo(Math.exp(-1), 12);
  expect(lateralChance(12, -6)).toBeCloseTo(Math.exp(-0.25), 12);
});
