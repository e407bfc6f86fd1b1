import { model } from 'geomagnetism';
import { UserError } from '../door/user-error.ts';
import type { Point } from '../math/plane.ts';
import { convergenceDegrees, toLonLat } from '../terrain/projection.ts';

/** Three norths at one place on one day. East of true north is +. */
export interface Norths {
  readonly declinationDegrees: number;
  readonly convergenceDegrees: number;
  /** For example `WMM-2025`. */
  readonly model: string;
  /** ISO date. */
  readonly date: string;
}

export interface Declination {
  /** + where magnetic north lies east of true north, rounded to .01°. */
  readonly degrees: number;
  /** 1 SD of the model itself, without local iron. */
  readonly sdDegrees: number;
  readonly model: string;
}

/** Declination by the World Magnetic Model that covers the date. Height in metres above the ellipsoid (sea level will do). */
export function declinationAt(lonLat: readonly [number, number], height: number, date: Date): Declination {
  const found = modelFor(date);
  const [lon, lat] = lonLat;
  const { decl, h } = found.point([lat, lon, height / 1000]);
  return {
    degrees: Math.round(decl * 100) / 100,
    sdDegrees: declinationSdDegrees(h),
    model: found.name,
  };
}

/** sd_D = √(0.26² + (5417/H)²) degrees for a horizontal intensity H in nT: the error model of the World Magnetic Model 2025. */
export function declinationSdDegrees(horizontalNanotesla: number): number {
  const part = 5417 / horizontalNanotesla;
  return Math.sqrt(0.26 * 0.26 + part * part);
}

/** The norths at a place of a terrain. `date` is an ISO date that some World Magnetic Model must cover. */
export function northsAt(crs: string, at: Point, height: number, date: string): Norths {
  const { degrees, model } = declinationAt(toLonLat(crs, at), Number.isNaN(height) ? 0 : height, dayOf(date));
  return {
    declinationDegrees: degrees,
    convergenceDegrees: convergenceDegrees(crs, at),
    model,
    date,
  };
}

/** Magnetic = true − declination, true = grid + convergence; degrees in [0, 360). */
export function magneticBearingDegrees(gridBearingDegrees: number, norths: Norths): number {
  const magnetic = (gridBearingDegrees + norths.convergenceDegrees - norths.declinationDegrees) % 360;
  return magnetic < 0 ? magnetic + 360 : magnetic;
}

/** Noon UTC of an ISO date. Throws `UserError` for anything else. */
export function dayOf(date: string): Date {
  const iso = date.slice(0, 10);
  const day = new Date(`${iso}T12:00:00Z`);
  // an engine may roll 31 February over into March: such a day must come back as it went in
  if (Number.isNaN(day.getTime()) || day.toISOString().slice(0, 10) !== iso)
    throw new UserError({ what: 'not a date', got: date, expected: 'a date such as 2026-11-25' });
  return day;
}

function modelFor(date: Date) {
  try {
    return model(date);
  } catch {
    throw new UserError({
      what: 'no magnetic model for this date',
      where: 'conditions.date',
      got: date.toISOString().slice(0, 10),
      expected: 'a date between 2014-12-16 and 2029-11-12, the span of the models at hand',
    });
  }
}
