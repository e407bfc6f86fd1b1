import { model } from 'geomagnetism';
import { describe, expect, test } from 'vitest';
import { declinationAt, declinationSdDegrees } from '../../src/conditions/norths.ts';
import { close, readChecks } from './checks.ts';

/** 2027.5 is the middle of its year, as the model counts years. */
function dateOf(year: number): Date {
  const whole = Math.floor(year);
  return new Date(Date.UTC(whole) + (year - whole) * 365 * 86_400_000);
}

describe('World Magnetic Model 2025, official test values', () => {
  const rows = readChecks('magnetic');
  test.each(rows.filter((r) => r.id !== 'E.wmm.unc').map((r) => [r.id, r] as const))('%s', (_, row) => {
    const { decimal_year, height_km_ellipsoid, lat, lon } = row.inputs;
    const date = dateOf(decimal_year);
    const found = declinationAt([lon, lat], height_km_ellipsoid * 1000, date);
    expect(found.model).toBe('WMM-2025');
    // ours is rounded to .01 degrees, as the table is
    expect(Math.abs(found.degrees - row.expected.D)).toBeLessThanOrEqual(0.0100001);
    const field = model(date).point([lat, lon, height_km_ellipsoid]);
    expect(Math.abs(field.h - row.expected.H)).toBeLessThanOrEqual(row.tolerance.nT);
  });

  test('error of a declination', () => {
    const row = rows.find((r) => r.id === 'E.wmm.unc')!;
    row.inputs.H_nT.forEach((h: number, i: number) => {
      close(declinationSdDegrees(h), row.expected.sd_D_deg[i], row.tolerance);
    });
  });
});
