import { FOOT, MILE, YARD } from '../../src/door/measures.ts';
import type { Reading } from '../../src/door/reading.ts';

/*
 * What on a map is measured in the reader's units: contours and scale bars. Grid, its ticks and their numbers are kilometres of the coordinate
 * system for every reader: they are what grid references are made of.
 */

export type Units = Reading['units'];

const METRES = [1, 2, 5, 10, 20, 50, 100, 200, 500] as const;
/** Steps at which every fifth is round too. */
const FEET = [5, 10, 20, 50, 100, 200, 500, 1000] as const;

/** The closest interval, in metres, that gives at most so many lines between the lowest and the highest height. */
export function contourInterval(low: number, high: number, most: number, units: Units = 'metric'): number {
  const steps = units === 'metric' ? METRES : FEET.map((feet) => feet * FOOT);
  return steps.find((step) => (high - low) / step <= most) ?? steps[steps.length - 1]!;
}

/** What is written on a contour: metres or feet, whole. */
export function contourNumber(height: number, units: Units): string {
  return String(Math.round(units === 'metric' ? height : height / FOOT));
}

/** A scale bar: its length on the ground in metres and what is written beside it. */
export interface Bar {
  readonly metres: number;
  readonly text: string;
}

/** The round length (1, 2 or 5 × 10ⁿ metres, or yards and then miles) at or below this one. */
export function roundBar(metres: number, units: Units): Bar {
  if (units === 'metric') {
    const round = niceLength(metres);
    return { metres: round, text: round >= 1000 ? `${round / 1000} km` : `${round} m` };
  }
  // half a mile is the first bar that is longer than 500 yards and still known by heart
  if (metres >= MILE / 2) {
    const miles = metres >= MILE ? niceLength(metres / MILE) : 0.5;
    return { metres: miles * MILE, text: miles === 0.5 ? '½ mi' : `${miles} mi` };
  }
  const yards = niceLength(metres / YARD);
  return { metres: yards * YARD, text: `${yards} yd` };
}

/** The round length (1, 2 or 5 × 10ⁿ) at or below this one. */
export function niceLength(length: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, length)));
  const digit = length / power;
  return power * (digit >= 5 ? 5 : digit >= 2 ? 2 : 1);
}

/** The scale bar of a print: one that a ruler measures well at that scale. */
export function printBar(scale: number, units: Units): Bar {
  if (units === 'metric') return roundBar(scale >= 20_000 ? 1000 : 500, units);
  return roundBar(scale >= 20_000 ? MILE / 2 : 500 * YARD, units);
}
