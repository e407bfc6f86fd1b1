import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Conditions } from '../../src/conditions/conditions.ts';
import { airOf } from '../../src/conditions/factors.ts';
import { defaultDoubt } from '../../src/features/doubt.ts';
import { skillOf } from '../../src/party/presets.ts';
import { detectionFactor, detectionRange, torchReach } from '../../src/seeing/range.ts';
import { recognisedShare } from '../../src/seeing/recognised.ts';
import { halfWidth, sweepWidth } from '../../src/seeing/sweep.ts';

const DAY: Conditions = {
  visibility: { below: 5000, above: 5000, cloudBase: null },
  ground: 'normal',
  light: 'day',
  wind: { metresPerSecond: 0, fromDegrees: 0 },
  date: null,
};

describe('range of detection', () => {
  const wall = { ...defaultDoubt('wall'), rangeMetres: 400, contrast: 0.8 };

  test('the least of R0 × ground and c × V', () => {
    expect(detectionRange(wall, 5000, 1, 'day')).toBe(400);
    expect(detectionRange(wall, 5000, 0.7, 'day')).toBe(280);
    expect(detectionRange(wall, 100, 1, 'day')).toBe(80);
    expect(detectionRange(wall, 100, 0.7, 'day')).toBe(80);
  });

  test('in the dark no more than a torch shows, three tenths of it in cloud', () => {
    // 30 to 80 m by class of visibility, ×.3 in cloud: common practice
    expect(detectionRange(wall, 5000, 1, 'dark')).toBe(80);
    expect(detectionRange({ ...wall, visibility: 'low' }, 5000, 1, 'dark')).toBe(30);
    expect(detectionRange(wall, 200, 1, 'dark')).toBeCloseTo(24, 12);
    expect(detectionRange(wall, 20, 1, 'dark')).toBe(16);
    expect(torchReach('high', Math.sqrt(200 * 1000))).toBeCloseTo(80 * 0.65, 9);
  });

  test('a torch reaches by class, all of it from a visibility of 1 km on, in ln V between', () => {
    for (const [visibility, metres] of [
      ['high', 80],
      ['medium', 55],
      ['low', 30],
    ] as const) {
      for (const v of [1000, 1001, 20_000]) expect(torchReach(visibility, v)).toBe(metres);
      for (const v of [20, 199, 200]) expect(torchReach(visibility, v)).toBeCloseTo(0.3 * metres, 12);
      const share = 0.3 + 0.7 * (Math.log(800 / 200) / Math.log(5));
      expect(torchReach(visibility, 800)).toBeCloseTo(share * metres, 9);
    }
  });

  test('no torch makes a thing show from farther than by day', () => {
    const near = { ...wall, rangeMetres: 20 };
    expect(detectionRange(near, 5000, 1, 'dark')).toBe(20);
  });

  test('never falls as the air clears or the ground opens', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 6000, noNaN: true }),
        fc.double({ min: 0.2, max: 1, noNaN: true }),
        fc.constantFrom('day' as const, 'dark' as const),
        (v, f, light) => {
          const here = detectionRange(wall, v, f, light);
          expect(detectionRange(wall, v * 1.1, f, light)).toBeGreaterThanOrEqual(here);
          expect(detectionRange(wall, v, f * 1.1, light)).toBeGreaterThanOrEqual(here);
        },
      ),
    );
  });

  test('wind, cover and for springs wet ground come together, bounded', () => {
    const wet: Conditions = { ...DAY, ground: 'saturated', wind: { metresPerSecond: 20, fromDegrees: 0 } };
    const air = airOf(wet, 5000);
    expect(detectionFactor('cairn', air, 0.8, 'saturated')).toBeCloseTo(0.85 * 0.8, 12);
    expect(detectionFactor('spring', air, 0.8, 'saturated')).toBeCloseTo(0.85 * 0.8 * 0.6, 12);
    expect(detectionFactor('well', air, 0.8, 'saturated')).toBeCloseTo(0.85 * 0.8 * 0.6, 12);
    expect(detectionFactor('spring', air, 0.5, 'spate')).toBeCloseTo(0.85 * 0.5 * 0.5, 12);
    expect(detectionFactor('spring', air, 0.3, 'spate')).toBe(0.2);
  });
});

test('a sweep width that the task gives holds whatever the range', () => {
  const spring = { ...defaultDoubt('spring'), sweepWidthMetres: 24 };
  expect(sweepWidth(spring, 3)).toBe(24);
  expect(halfWidth(spring, 300)).toBe(12);
  // half-width r = .55 Rd of a thing of low visibility
  expect(halfWidth(defaultDoubt('spring'), 10)).toBeCloseTo(5.5, 12);
});

test('seen is not recognised: a tiny spring by skill, a ruin nearly always', () => {
  for (const level of ['novice', 'competent', 'expert'] as const) {
    const skill = skillOf(level);
    expect(recognisedShare(skill, defaultDoubt('spring'))).toBe(skill.recognisedShare);
    expect(recognisedShare(skill, defaultDoubt('ruin'))).toBeGreaterThanOrEqual(0.95);
    const middle = recognisedShare(skill, defaultDoubt('cairn'));
    // halfway between the skill's share and .95
    expect(middle).toBeCloseTo((skill.recognisedShare + Math.max(0.95, skill.recognisedShare)) / 2, 12);
    expect(middle).toBeGreaterThanOrEqual(skill.recognisedShare);
    expect(middle).toBeLessThanOrEqual(recognisedShare(skill, defaultDoubt('ruin')));
  }
  expect(recognisedShare({ ...skillOf('novice'), recognisedShare: 1 }, defaultDoubt('spring'))).toBe(1);
});
