import { describe, expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { benchParty, benchWorld, leg, plainTerrain, route, spot } from '../walk/plain-ground.ts';
import { AS_WRITTEN, type Lay, VARIANTS } from './turned.ts';
import { stops } from './walked.ts';

/*
 * Pace or clock: the error along the leg of a competent party. Common practice, no published source; the RMS is a closed form:
 * pace 1.054·σ·d·ρ, clock d·√(σ² + bias²), a miscount adds p·100² with p = 1 − e^(−.03·km).
 */
const terrain = plainTerrain(2200, 40);

/** RMS along the leg in metres. */
function rms(
  lay: Lay,
  technique: 'bearing' | 'timing',
  metres: number,
  trials: number,
  set: Partial<Skill> = {},
  rho = 1,
): number {
  const to: Point = lay.at([0, metres]);
  const start: Point = lay.at([0, 0]);
  // nobody comes by it
  const target = spot('target', 'boulder', lay.at([900, 900]), {
    sweepWidthMetres: 1,
    exists: 1,
    positionMetres: 0,
  });
  const world = benchWorld({
    terrain,
    features: [target],
    start,
    target,
    rho,
    party: benchParty('competent', { bearingDegrees: 0, wanderMetres: 0, driftDegrees: 0, ...set }),
  });
  const d = Math.hypot(to[0], to[1]);
  const at = stops(world, route(leg(technique, start, to)), trials);
  let sum = 0;
  for (let i = 0; i < at.length; i += 2) {
    const off = (at[i]! * to[0] + at[i + 1]! * to[1]) / d - d;
    sum += off * off;
  }
  return Math.sqrt(sum / trials);
}

const off = (got: number, expected: number) => Math.abs(got / expected - 1);
const BIAS = { timingBiasShare: -0.15 };

describe('pace or clock, as written', () => {
  // 6 % as stated; the sampling error of an RMS over 6000 is 1 %
  test.each([
    ['pace, 150 m', 'bearing', 150, 7.9, {}, 1],
    ['pace, 1500 m', 'bearing', 1500, 79, {}, 1],
    ['clock, 150 m', 'timing', 150, 18, {}, 1],
    ['clock, 1500 m', 'timing', 1500, 180, {}, 1],
    ['clock that takes the speed 15 % too high, 150 m', 'timing', 150, 29, BIAS, 1],
    ['clock that takes the speed 15 % too high, 1500 m', 'timing', 1500, 290, BIAS, 1],
    ['pace on ground with ρ = 1.2, 150 m', 'bearing', 150, 9.3, {}, 1.2],
    ['pace on ground with ρ = 1.2, 1500 m', 'bearing', 1500, 93, {}, 1.2],
  ] as const)('%s', (_name, technique, metres, expected, set, rho) => {
    const n = metres > 1000 ? 1500 : 6000;
    expect(off(rms(AS_WRITTEN, technique, metres, n, set, rho), expected)).toBeLessThan(0.06);
  });

  test('with miscounts 10.6 m and 82 m', () => {
    const on = { miscountPerKm: 0.03 };
    expect(off(rms(AS_WRITTEN, 'bearing', 150, 20000, on), 10.6)).toBeLessThan(0.06);
    expect(off(rms(AS_WRITTEN, 'bearing', 1500, 3000, on), 82)).toBeLessThan(0.06);
  });
});

describe.each(VARIANTS)('pace or clock, $name', (lay) => {
  test('the clock is worse than the count, a biased clock worse still, longer legs worse than short ones', () => {
    const of = (technique: 'bearing' | 'timing', metres: number, set: Partial<Skill> = {}) =>
      rms(lay, technique, metres, 500, set);
    for (const metres of [150, 1000]) {
      expect(of('timing', metres)).toBeGreaterThan(1.5 * of('bearing', metres));
      expect(of('timing', metres, BIAS)).toBeGreaterThan(1.3 * of('timing', metres));
    }
    expect(of('bearing', 1000)).toBeGreaterThan(5 * of('bearing', 150));
  });
});
