import { expect, test } from 'vitest';
import { timingBias } from '../../src/conditions/wind.ts';

// −5 to −30 % against the wind: common practice, no published source
test('a head wind makes the clock stop short, by its part along the heading', () => {
  const west = (metresPerSecond: number) => ({ metresPerSecond, fromDegrees: 270 });
  const towards = (degrees: number) => (degrees * Math.PI) / 180;
  expect(timingBias(west(8), towards(270))).toBeCloseTo(-0.05, 12);
  expect(timingBias(west(20), towards(270))).toBeCloseTo(-0.3, 12);
  expect(timingBias(west(30), towards(270))).toBeCloseTo(-0.3, 12);
  expect(timingBias(west(14), towards(270))).toBeCloseTo(-0.175, 12);
  expect(timingBias(west(20), towards(330))).toBeCloseTo(-0.15, 12);
  expect(timingBias(west(20), towards(90))).toBe(0);
  expect(timingBias(west(0), towards(270))).toBe(0);
});
