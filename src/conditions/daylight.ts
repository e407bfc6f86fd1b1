import { getTimes } from 'suncalc';
import { dayOf } from './norths.ts';

/** Sunrise and sunset of a day at a place, UTC to the minute; null where the sun does not rise or does not set. */
export interface Daylight {
  readonly sunrise: string | null;
  readonly sunset: string | null;
  readonly hours: number;
}

export function daylight(lonLat: readonly [number, number], date: string): Daylight {
  const times = getTimes(dayOf(date), lonLat[1], lonLat[0]);
  const { sunrise, sunset } = times;
  if (sunrise === null || sunset === null)
    return { sunrise: null, sunset: null, hours: times.alwaysUp === true ? 24 : 0 };
  const up = minuteOf(sunrise);
  const down = minuteOf(sunset);
  return { sunrise: clock(up), sunset: clock(down), hours: (down - up) / 60 };
}

function minuteOf(t: Date): number {
  return Math.round(t.getTime() / 60_000);
}

function clock(minutes: number): string {
  const m = ((minutes % 1440) + 1440) % 1440;
  return `${String(Math.floor(m / 60)).padStart(2, '0')}:${String(m % 60).padStart(2, '0')}`;
}
