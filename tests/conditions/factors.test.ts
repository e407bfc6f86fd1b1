import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Conditions, GROUNDS } from '../../src/conditions/conditions.ts';
import {
  combined,
  dayFactors,
  factorsOf,
  groundSpeed,
  handrailFactor,
  junctionFactor,
  visibilityAt,
  visibilityFactors,
  windFactors,
} from '../../src/conditions/factors.ts';

const CLEAR: Conditions = {
  visibility: { below: 5000, above: 5000, cloudBase: null },
  ground: 'normal',
  light: 'day',
  wind: { metresPerSecond: 0, fromDegrees: 0 },
  date: null,
};

describe('visibility', () => {
  test('is a field: below the cloud base, above it, and one value without a base', () => {
    const day = { ...CLEAR, visibility: { below: 5000, above: 200, cloudBase: 480 } };
    expect(visibilityAt(day, 480)).toBe(5000);
    expect(visibilityAt(day, 480.1)).toBe(200);
    // a trial's own base
    expect(visibilityAt(day, 490, 500)).toBe(5000);
    expect(visibilityAt({ ...day, visibility: { ...day.visibility, cloudBase: null } }, 2000)).toBe(5000);
  });

  // multipliers at the band centres: common practice, no published source
  test.each([
    [5000, 1, 1, 1],
    [1000, 1, 1, 1],
    [500, 0.97, 1, 1],
    [300, 0.93, 1.1, 1.05],
    [120, 0.85, 1.3, 1.1],
    [35, 0.7, 1.6, 1.2],
    [5, 0.7, 1.6, 1.2],
  ])('V = %d m', (v, speed, bearing, pace) => {
    const f = visibilityFactors(v);
    expect(f.speed).toBeCloseTo(speed, 12);
    expect(f.bearing).toBeCloseTo(bearing, 12);
    expect(f.pace).toBeCloseTo(pace, 12);
    expect(f.detection).toBe(1);
  });

  test('is interpolated in ln V: half way between two centres is their geometric mean', () => {
    expect(visibilityFactors(Math.sqrt(300 * 120)).bearing).toBeCloseTo(1.2, 12);
  });

  test('has no cliffs and never improves as it thickens', () => {
    fc.assert(
      fc.property(fc.double({ min: 5, max: 3000, noNaN: true }), (v) => {
        const a = visibilityFactors(v);
        const b = visibilityFactors(v * 0.99);
        expect(b.speed).toBeLessThanOrEqual(a.speed);
        expect(b.bearing).toBeGreaterThanOrEqual(a.bearing);
        expect(b.pace).toBeGreaterThanOrEqual(a.pace);
        expect(a.speed - b.speed).toBeLessThan(0.005);
        expect(b.bearing - a.bearing).toBeLessThan(0.005);
      }),
    );
  });
});

test.each([
  [0, 1, 1, 1, 1],
  [8, 0.97, 1, 1, 1],
  [11, 0.935, 1.075, 1.025, 0.975],
  [14, 0.9, 1.15, 1.05, 0.95],
  [20, 0.75, 1.4, 1.15, 0.85],
  [35, 0.75, 1.4, 1.15, 0.85],
])('wind of %d m/s', (v, speed, bearing, pace, detection) => {
  const f = windFactors(v);
  expect([f.speed, f.bearing, f.pace, f.detection]).toEqual(
    [speed, bearing, pace, detection].map((x) => expect.closeTo(x, 12)),
  );
});

test('wet ground slows and scatters off the path only', () => {
  const speeds = GROUNDS.map((ground) => factorsOf({ ...CLEAR, ground }, 5000).speed);
  expect(speeds).toEqual([1, 1, 0.9, 0.75, 0.6]);
  expect(GROUNDS.map(groundSpeed)).toEqual(speeds);
  expect(factorsOf({ ...CLEAR, ground: 'spate' }, 5000, 'off-path')).toMatchObject({
    bearing: 1.3,
    pace: 1.15,
  });
  expect(factorsOf({ ...CLEAR, ground: 'spate' }, 5000, 'on-path')).toEqual(factorsOf(CLEAR, 5000));
});

test('the dark multiplies everything but what a torch shows', () => {
  expect(factorsOf({ ...CLEAR, light: 'dark' }, 5000)).toEqual({
    speed: 0.75,
    bearing: 1.3,
    pace: 1.15,
    detection: 1,
  });
});

test('products are bounded', () => {
  const worst: Conditions = {
    ...CLEAR,
    ground: 'spate',
    light: 'dark',
    wind: { metresPerSecond: 25, fromDegrees: 0 },
  };
  const f = factorsOf(worst, 20);
  expect(f.speed).toBe(0.25);
  expect(f.bearing).toBe(3);
  const four = { speed: 0.3, bearing: 2, pace: 2, detection: 0.3 };
  expect(combined(four, four)).toEqual({ speed: 0.25, bearing: 3, pace: 3, detection: 0.2 });
});

test('junctions and handrails: twice in poor visibility or thrice in thick, twice in the dark', () => {
  const dark: Conditions = { ...CLEAR, light: 'dark' };
  expect([junctionFactor(CLEAR, 200), junctionFactor(CLEAR, 199), junctionFactor(dark, 199)]).toEqual([
    1, 2, 4,
  ]);
  expect([handrailFactor(CLEAR, 50), handrailFactor(CLEAR, 49), handrailFactor(dark, 49)]).toEqual([1, 3, 6]);
});

test('the day prepared holds what is looked up on either side of the cloud base', () => {
  const day = { ...CLEAR, ground: 'wet' as const, visibility: { below: 5000, above: 40, cloudBase: 480 } };
  const { below, above } = dayFactors(day);
  expect(below.offPath).toEqual(factorsOf(day, 5000));
  expect(above.offPath).toEqual(factorsOf(day, 40));
  expect(above.onPath).toEqual(factorsOf(day, 40, 'on-path'));
  expect([above.visibilityMetres, above.junction, above.handrail]).toEqual([40, 2, 3]);
});
