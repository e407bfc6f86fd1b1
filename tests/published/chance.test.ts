import { describe, expect, test } from 'vitest';
import { ar1SumSd } from '../../src/math/ar1.ts';
import { RADIANS } from '../../src/math/bearing.ts';
import { passesWithin, rightSide, stopsWithin } from '../../src/math/bivariate.ts';
import { pairedDifference, trialsFor, wilson } from '../../src/math/proportion.ts';
import { skillOf } from '../../src/party/presets.ts';
import { alongSd, lateralSd } from '../../src/party/straight-leg.ts';
import { type Check, close, readChecks } from './checks.ts';

/** An expert whose only errors are the given bearing and pace. */
function errsBy(bearingDegrees: number, paceShare = 0) {
  return { ...skillOf('expert'), bearingDegrees, wanderMetres: 0, paceShare };
}

/** The radius that holds a share p, by bisection of the closed form. */
function radiusOf(p: number, sdAcross: number, sdAlong: number): number {
  let low = 0;
  let high = 10;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (stopsWithin(middle, sdAcross, sdAlong) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const FAMILIES: Readonly<Record<string, (check: Check) => void>> = {
  'D.offset.': ({ inputs, expected, tolerance }) =>
    close(lateralSd(errsBy(inputs.sd_deg), inputs.L_m), expected.sd_lateral_m, tolerance),
  'D.rayleigh.quantiles': ({ inputs, expected }) => {
    inputs.p.forEach((p: number, i: number) => {
      close(radiusOf(p, 1, 1), expected.R_over_sigma[i], 1e-8);
    });
  },
  'D.rayleigh.': ({ inputs, expected, tolerance }) =>
    close(stopsWithin(inputs.R_over_sigma, 1, 1), expected.P, tolerance),
  'D.rice.': ({ inputs, expected, tolerance }) => {
    inputs.R_over_sigma.forEach((r: number, i: number) => {
      close(stopsWithin(r, 1, 1, inputs.offset_over_sigma, 0), expected.P[i], tolerance);
      close(stopsWithin(r, 1, 1, 0, -inputs.offset_over_sigma), expected.P[i], tolerance);
    });
  },
  'D.harter.': ({ inputs, expected, tolerance }) => {
    inputs.p.forEach((p: number, i: number) => {
      close(radiusOf(p, inputs.sigma_min_over_max, 1), expected.K_times_sigma_max[i], tolerance);
    });
  },
  'D.grubbs.': ({ inputs, expected, tolerance }) => {
    close(stopsWithin(1, inputs.s1, inputs.s2, inputs.m1, inputs.m2), expected.P_R1_exact, tolerance);
    close(radiusOf(0.5, inputs.s1, inputs.s2), expected.CEP_exact, tolerance);
  },
  'D.drhit.': ({ inputs, expected, tolerance }) => {
    // the table's pace error has no part drawn per leg: 1.054 is taken out
    const skill = errsBy(inputs.sd_bearing_deg, inputs.sd_pace_frac / Math.sqrt(1 + 1 / 9));
    const across = lateralSd(skill, inputs.L_m);
    const along = alongSd(skill, inputs.L_m);
    close(across, expected.sd_lat, 1e-9);
    close(along, expected.sd_along, 1e-9);
    close(stopsWithin(inputs.R_m, across, along), expected.P_stop_within_R, tolerance);
    close(passesWithin(inputs.R_m, across), expected.P_line_passes_within_R, tolerance);
  },
  'D.aimoff.': ({ inputs, expected, tolerance }) => {
    const sd = 300 * 2.5 * RADIANS;
    close(rightSide(inputs.k_sd * sd, sd), expected.P_correct_side, tolerance);
  },
  'D.segment.': ({ inputs, expected, tolerance }) =>
    close(passesWithin(inputs.half_width_m, inputs.sd_m, inputs.bias_m), expected.P, tolerance),
  'D.ar1.': ({ inputs, expected, tolerance }) => {
    const one = inputs.leg_m * inputs.sd_deg * RADIANS;
    const { n_legs: n, phi } = inputs;
    close(one * ar1SumSd(n, phi), expected.sd_lateral_m, tolerance);
    close(one * ar1SumSd(n, 1), expected.sd_if_common_bias, tolerance);
    close(one * ar1SumSd(n, 0), expected.sd_if_independent, tolerance);
  },
  'D.wilson.': ({ inputs, expected, tolerance }) => {
    const { low, high } = wilson(inputs.x, inputs.n);
    close(low, expected.lo, tolerance);
    close(high, expected.hi, tolerance);
  },
  'D.mc.n.': ({ inputs, expected }) =>
    expect(trialsFor(inputs.p, inputs.half_width, inputs.z)).toBe(expected.n),
};

describe('shares and closed forms against their sources', () => {
  const families = Object.keys(FAMILIES).sort((a, b) => b.length - a.length);
  test.each(readChecks('chance').map((c) => [c.id, c] as const))('%s', (id, check) => {
    const family = families.find((f) => id.startsWith(f));
    expect(family, `no test takes ${id}`).toBeDefined();
    FAMILIES[family!]!(check);
  });
});

test('difference of paired shares: the worked example of its paper', () => {
  // Newcombe RG (1998) Statistics in Medicine 17:2635-2650: 36, 12, 2, 0 of 50, method 10; limits to four digits from memory
  const { difference, low, high } = pairedDifference({ both: 36, onlyFirst: 12, onlySecond: 2, neither: 0 });
  expect(difference).toBeCloseTo(0.2, 12);
  expect(low).toBeCloseTo(0.0569, 4);
  expect(high).toBeCloseTo(0.3404, 4);
});
