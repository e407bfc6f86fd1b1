import { expect, test } from 'vitest';
import {
  RIVULETS_PER_100,
  SPRING_DETECTION,
  sideSlopePace,
  sideSlopeSpeed,
  surfaceFactors,
} from '../../src/conditions/underfoot.ts';
import { SURFACES } from '../../src/terrain/terrain.ts';

// all of these are common practice, no published source
test('surfaces, path to boulder', () => {
  const column = (key: 'speed' | 'wander' | 'pace' | 'detection') =>
    SURFACES.map((s) => surfaceFactors(s)[key]);
  expect(column('speed')).toEqual([1, 0.87, 0.65, 0.55, 0.42, 0.42]);
  expect(column('wander')).toEqual([1, 1, 1.2, 1.4, 1.7, 1.5]);
  expect(column('pace')).toEqual([1, 1.05, 1.2, 1.4, 1.7, 1.6]);
  expect(column('detection')).toEqual([1, 1, 0.8, 0.7, 0.5, 0.7]);
});

test('side slope: full straight across, nothing straight up, linear in the tangent between', () => {
  const tan = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
  expect([10, 20, 30, 40].map((d) => sideSlopeSpeed(tan(d), 1))).toEqual(
    [0.9, 0.75, 0.5, 0.5].map((x) => expect.closeTo(x, 7)),
  );
  expect([10, 20, 30].map((d) => sideSlopePace(tan(d), 1))).toEqual(
    [1.05, 1.15, 1.3].map((x) => expect.closeTo(x, 7)),
  );
  expect(sideSlopeSpeed(tan(30), 0)).toBe(1);
  expect(sideSlopeSpeed(tan(20), 0.5)).toBeCloseTo(0.875, 7);
  expect(sideSlopeSpeed(tan(10) / 2, 1)).toBeCloseTo(0.95, 7);
});

test('wet ground hides springs and makes rivulets', () => {
  expect(Object.values(SPRING_DETECTION)).toEqual([1, 1, 0.8, 0.6, 0.5]);
  expect(Object.values(RIVULETS_PER_100)).toEqual([0, 0.02, 0.3, 1, 2]);
});
