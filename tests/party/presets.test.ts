import { describe, expect, test } from 'vitest';
import { RADIANS } from '../../src/math/bearing.ts';
import { SKILL_LEVELS, type Skill } from '../../src/party/party.ts';
import { DEFAULT_LIMITS, DEFAULT_PARTY, skillOf } from '../../src/party/presets.ts';
import {
  alongSd,
  bearingSdRadians,
  habitSdRadians,
  lateralSd,
  marksCanBeHad,
  perBearingSdRadians,
  wanderMetres,
} from '../../src/party/straight-leg.ts';

/** Common practice, no published source: novice, competent, expert. */
const TABLE: readonly (readonly [(s: Skill) => number, number, number, number])[] = [
  [(s) => s.bearingDegrees, 5, 2.5, 1.2],
  [(s) => s.resightDegrees, 6, 3.2, 1.6],
  [(s) => s.paceShare, 0.1, 0.05, 0.025],
  [(s) => s.miscountPerKm, 0.08, 0.03, 0.01],
  [(s) => s.timingShare, 0.2, 0.12, 0.08],
  [(s) => s.driftDegrees, 15, 7, 3],
  [(s) => s.reverseShare, 0.02, 0.004, 0.001],
  [(s) => s.slipShare, 0.03, 0.01, 0.003],
  [(s) => s.declinationShare, 0.15, 0.03, 0.005],
  [(s) => s.contourMetres.mean, -4, -2, -0.5],
  [(s) => s.contourMetres.sd, 5, 3, 1.5],
  [(s) => s.aspectDegrees, 20, 10, 6],
  [(s) => s.noticedShare, 0.8, 0.92, 0.97],
  [(s) => s.recognisedShare, 0.7, 0.9, 0.97],
  [(s) => s.overrun, 1.5, 1.2, 1.1],
  [(s) => s.lookalikeShare, 0.6, 0.25, 0.08],
  [(s) => s.admitsLostShare, 0.15, 0.4, 0.7],
  [(s) => s.junctionShare, 0.08, 0.03, 0.01],
  [(s) => s.handrailLossPerKm, 2, 1, 0.5],
];

test('the three levels are as the table of the trade has them', () => {
  for (const [read, ...values] of TABLE)
    expect(SKILL_LEVELS.map((level) => read(skillOf(level)))).toEqual(values);
});

test('defaults: four competent people, ten minutes to search once', () => {
  expect(DEFAULT_PARTY.set).toBe(skillOf('competent'));
  expect(DEFAULT_PARTY.people).toBe(4);
  expect(DEFAULT_LIMITS).toMatchObject({ searchMinutes: 10, relaunches: 1, slopeDegrees: 35 });
});

describe('errors of a straight leg', () => {
  test('wander follows from re-sighting: 7.4, 3.95 and 1.97 m per √(100 m)', () => {
    // figures of an independent reference simulator's bench, two or three digits
    const w = SKILL_LEVELS.map((level) => wanderMetres(skillOf(level), true));
    expect(w[0]).toBeCloseTo(7.4, 1);
    expect(w[1]).toBeCloseTo(3.95, 2);
    expect(w[2]).toBeCloseTo(1.97, 2);
  });

  test('mist never improves wander, and a given wander is taken as it is', () => {
    for (const level of SKILL_LEVELS)
      expect(wanderMetres(skillOf(level), false)).toBeGreaterThan(wanderMetres(skillOf(level), true));
    expect(marksCanBeHad(50)).toBe(true);
    expect(marksCanBeHad(49)).toBe(false);
    expect(marksCanBeHad(5000, true)).toBe(false);
    const given = { ...skillOf('novice'), wanderMetres: 2 };
    expect(wanderMetres(given, true)).toBe(2);
    expect(wanderMetres(given, false)).toBe(2);
  });

  test('habit of the day and each bearing add up to the whole', () => {
    const s = skillOf('novice');
    const whole = bearingSdRadians(s);
    expect(whole).toBeCloseTo(5 * RADIANS, 15);
    expect(Math.hypot(habitSdRadians(s), perBearingSdRadians(s))).toBeCloseTo(whole, 15);
  });

  test('wander grows with the root of the distance, a bearing error with the distance', () => {
    const wanders = { ...skillOf('novice'), bearingDegrees: 0 };
    expect(lateralSd(wanders, 400) / lateralSd(wanders, 100)).toBeCloseTo(2, 12);
    const misses = { ...skillOf('novice'), wanderMetres: 0 };
    expect(lateralSd(misses, 400) / lateralSd(misses, 100)).toBeCloseTo(4, 12);
  });

  test('M multiplies all of it, ρ the wander and the pace only', () => {
    const s = skillOf('competent');
    const by = { bearing: 1, pace: 1, surfaceWander: 1, surfacePace: 1 };
    expect(lateralSd(s, 300, { ...by, bearing: 1.5 })).toBeCloseTo(1.5 * lateralSd(s, 300), 12);
    const steady = { ...s, wanderMetres: 0 };
    expect(lateralSd(steady, 300, { ...by, surfaceWander: 1.7 })).toBe(lateralSd(steady, 300));
    expect(lateralSd(s, 300, { ...by, surfaceWander: 1.7 })).toBeGreaterThan(lateralSd(s, 300));
    expect(alongSd(s, 300, { ...by, pace: 1.2, surfacePace: 1.4 })).toBeCloseTo(
      1.2 * 1.4 * alongSd(s, 300),
      12,
    );
  });

  test('pace of scenario 7: 7.9 m on 150 m, 79 m on 1500 m, more on rough ground', () => {
    const s = skillOf('competent');
    expect(alongSd(s, 150)).toBeCloseTo(7.9, 1);
    expect(alongSd(s, 1500)).toBeCloseTo(79, 0);
    const rough = { bearing: 1, pace: 1, surfaceWander: 1, surfacePace: 1.2 };
    // the reference gives 9 and 93, lengths within 6 %
    expect(Math.abs(alongSd(s, 150, rough) / 9 - 1)).toBeLessThan(0.06);
    expect(Math.abs(alongSd(s, 1500, rough) / 93 - 1)).toBeLessThan(0.06);
  });
});
