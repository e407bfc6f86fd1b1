import { expect, test } from 'vitest';
import { passesWithin, rightSide, stopsWithin } from '../../src/math/bivariate.ts';

// values of published tables are in tests/published/chance.test.ts

test('an error that vanishes leaves the other alone', () => {
  expect(stopsWithin(10, 0, 5, 6, 0)).toBeCloseTo(passesWithin(8, 5), 12);
  expect(stopsWithin(10, 1e-6, 5, 6, 0)).toBeCloseTo(passesWithin(8, 5), 6);
  expect(stopsWithin(10, 5, 1e-6, 0, 6)).toBeCloseTo(passesWithin(8, 5), 6);
  expect(stopsWithin(10, 0, 0, 6, 7)).toBe(1);
  expect(stopsWithin(10, 0, 0, 8, 8)).toBe(0);
  expect(stopsWithin(0, 3, 3)).toBe(0);
  expect(stopsWithin(5, 1, 1, 500, 0)).toBe(0);
});

test('across and along, left and right are alike', () => {
  const p = stopsWithin(15, 20, 8, 7, -3);
  expect(stopsWithin(15, 8, 20, -3, 7)).toBeCloseTo(p, 9);
  expect(stopsWithin(15, 20, 8, -7, 3)).toBeCloseTo(p, 9);
});

test('never falls with the radius nor rises with the error', () => {
  let before = 0;
  for (let r = 1; r < 80; r += 3) {
    const p = stopsWithin(r, 20, 8, 7, -3);
    expect(p).toBeGreaterThanOrEqual(before);
    expect(p).toBeLessThanOrEqual(passesWithin(r, 20, 7) + 1e-12);
    before = p;
  }
  expect(before).toBeCloseTo(1, 3);
  expect(stopsWithin(15, 20, 8)).toBeGreaterThan(stopsWithin(15, 30, 8));
});

test('straight at the place is a coin, a sure hand is sure', () => {
  expect(rightSide(0, 20)).toBe(0.5);
  expect(rightSide(0, 0)).toBe(0.5);
  expect(rightSide(30, 0)).toBe(1);
});
