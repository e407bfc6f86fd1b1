import { describe, expect, test } from 'vitest';
import { daylight } from '../../src/conditions/daylight.ts';
import { dayOf, magneticBearingDegrees, northsAt } from '../../src/conditions/norths.ts';
import { UserError } from '../../src/door/user-error.ts';

describe('norths', () => {
  test('magnetic = true − declination, true = grid + convergence', () => {
    const norths = { declinationDegrees: -2, convergenceDegrees: 1.5, model: 'WMM-2025', date: '2026-11-25' };
    expect(magneticBearingDegrees(100, norths)).toBeCloseTo(103.5, 12);
    expect(magneticBearingDegrees(358, norths)).toBeCloseTo(1.5, 12);
    expect(magneticBearingDegrees(1, { ...norths, declinationDegrees: 4 })).toBeCloseTo(358.5, 12);
  });

  test('on the British grid west of its meridian grid north lies west of true north', () => {
    // convergence there from transverse Mercator by finite difference, projection tests; declination by the World Magnetic Model
    const norths = northsAt('EPSG:27700', [322295, 512308], 300, '2026-11-25');
    expect(norths.convergenceDegrees).toBeCloseTo(-0.977, 3);
    expect(norths.model).toBe('WMM-2025');
    expect(Math.abs(norths.declinationDegrees)).toBeLessThan(1.5);
    // a missing height counts as sea level
    expect(northsAt('EPSG:27700', [322295, 512308], Number.NaN, '2026-11-25').declinationDegrees).toBeCloseTo(
      norths.declinationDegrees,
      2,
    );
  });

  test.each(['tomorrow', '2026-02-31', '2026-13-01', ''])('refuses %j as a date', (date) => {
    expect(() => dayOf(date)).toThrow(UserError);
  });

  test('a day that no model covers is told with the span of the models', () => {
    expect(() => northsAt('EPSG:27700', [322295, 512308], 0, '2031-01-01')).toThrow(
      /2014-12-16 and 2029-11-12/,
    );
    for (const edge of ['2014-12-16', '2029-11-12'])
      expect(northsAt('EPSG:27700', [322295, 512308], 0, edge).model).toMatch(/^WMM-20/);
  });
});

describe('daylight', () => {
  test('London, winter solstice 2026: 08:03 to 15:53', () => {
    // almanac times (UTC, to the minute) from memory; within three minutes
    const day = daylight([-0.1278, 51.5074], '2026-12-21');
    const minutes = (clock: string) => 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3));
    expect(Math.abs(minutes(day.sunrise!) - (8 * 60 + 3))).toBeLessThanOrEqual(3);
    expect(Math.abs(minutes(day.sunset!) - (15 * 60 + 53))).toBeLessThanOrEqual(3);
    expect(day.hours).toBeCloseTo(7.83, 1);
  });

  test('no sunrise in the polar night, no sunset in the polar day', () => {
    expect(daylight([19, 74.5], '2026-12-21')).toEqual({ sunrise: null, sunset: null, hours: 0 });
    expect(daylight([19, 74.5], '2026-06-21')).toEqual({ sunrise: null, sunset: null, hours: 24 });
  });
});
