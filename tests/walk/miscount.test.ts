import { describe, expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { stops, within } from '../scenarios/walked.ts';
import { benchParty, benchWorld, CERTAIN, leg, route, spot } from './plain-ground.ts';

/*
 * A slip in counting double paces puts the count out by one hundred metres, as often too many as too few (common practice, no published
 * source). It is made early in a leg and what is left to go changes at once. Chance 1 − e^(−p·km), model of the trade; derived as
 * x/(1 + x/2).
 */
const START: Point = [0, 0];
const SURE: Partial<Skill> = { bearingDegrees: 0, wanderMetres: 0, paceShare: 0, speedShare: 0 };

/** North of the start by so many metres each party ends a leg of `metres` by the count. */
function ends(
  technique: 'bearing' | 'timing',
  metres: number,
  miscountPerKm: number,
  trials: number,
): number[] {
  const target = spot('target', 'boulder', [1500, 1500], { ...CERTAIN, sweepWidthMetres: 1 });
  const party = benchParty('competent', { ...SURE, miscountPerKm });
  const world = benchWorld({ features: [target], start: START, target, party });
  // the navigator of the bench keeps time without error
  const still = { ...world, navigator: { ...world.navigator, timing: 0, timingBias: 0 } };
  const at = stops(still, route(leg(technique, START, [0, metres])), trials);
  return Array.from({ length: trials }, (_, i) => at[2 * i + 1]!);
}

const near = (ends: readonly number[], metres: number) => ends.filter((y) => Math.abs(y - metres) < 1).length;

describe('a count that slipped', () => {
  const trials = 1000;

  test('ends a leg of 150 m one hundred metres short or long, as often as not, and nowhere else', () => {
    // so many slips a kilometre that nearly all slip on 150 m
    const all = ends('bearing', 150, 1000, trials);
    const short = near(all, 50);
    const long = near(all, 250);
    expect(short + long).toBeGreaterThan(0.95 * trials);
    expect(short + long + near(all, 150)).toBe(trials);
    expect(Math.abs(short / (short + long) - 0.5)).toBeLessThan(within(0.5, trials, 0));
  });

  test('comes as often as is said of such parties', () => {
    // 1 − e^(−.08·1.5), a novice on 1.5 km
    const likely = 1 - Math.exp(-0.08 * 1.5);
    const slipped = trials - near(ends('bearing', 1500, 0.08, trials), 1500);
    expect(Math.abs(slipped / trials - likely)).toBeLessThan(within(likely, trials, 0));
  });

  test('is none of a leg under 100 m, nor of one by the clock', () => {
    expect(near(ends('bearing', 90, 1000, 100), 90)).toBe(100);
    expect(near(ends('timing', 150, 1000, 100), 150)).toBe(100);
  });
});
