import { describe, expect, test } from 'vitest';
import { CAMPBELL, CAMPBELL_LIDAR } from '../../src/speed/campbell.ts';
import { criticalGradient } from '../../src/speed/critical-gradient.ts';
import { DAVEY } from '../../src/speed/davey.ts';
import { walkingWattsPerKilogram } from '../../src/speed/energy-lcda.ts';
import { measuredWalkingCost, runningCost, walkingCost } from '../../src/speed/energy-minetti.ts';
import { loadedWatts, TERRAIN_COEFFICIENTS } from '../../src/speed/energy-pandolf.ts';
import { IRMISCHER_CLARKE, IRMISCHER_CLARKE_WOMEN } from '../../src/speed/irmischer-clarke.ts';
import { MARQUEZ_PEREZ } from '../../src/speed/marquez-perez.ts';
import { naismithSeconds } from '../../src/speed/naismith.ts';
import { langmuirPace, NAISMITH_LANGMUIR } from '../../src/speed/naismith-langmuir.ts';
import { REES } from '../../src/speed/rees.ts';
import { constantSpeed, equivalentDistance, SCARF } from '../../src/speed/scarf.ts';
import { TOBLER } from '../../src/speed/tobler.ts';
import { type Check, close, readChecks } from './checks.ts';

const KMH = 3.6;
const seconds = (v: number) => 1 / v;

/** Every family of the table, by the start of the id. */
const FAMILIES: Readonly<Record<string, (check: Check) => void>> = {
  'A.tobler.': ({ inputs, expected, tolerance }) => {
    const s = inputs.slope_rise_over_run;
    close(TOBLER.metresPerSecond(s, true) * KMH, expected.kmh_path, tolerance);
    close(TOBLER.metresPerSecond(s, false) * KMH, expected.kmh_offpath, tolerance);
    close(seconds(TOBLER.metresPerSecond(s, true)), expected.s_per_m_path, tolerance);
  },
  'A.marquez.': ({ inputs, expected, tolerance }) =>
    close(MARQUEZ_PEREZ.metresPerSecond(inputs.s, true) * KMH, expected.kmh, tolerance),
  'A.irmischer.': ({ inputs, expected, tolerance }) => {
    close(IRMISCHER_CLARKE.metresPerSecond(inputs.s, true), expected.ms_on_male, tolerance);
    close(IRMISCHER_CLARKE.metresPerSecond(inputs.s, false), expected.ms_off_male, tolerance);
    close(IRMISCHER_CLARKE_WOMEN.metresPerSecond(inputs.s, true), expected.ms_on_female, tolerance);
    close(IRMISCHER_CLARKE_WOMEN.metresPerSecond(inputs.s, false), expected.ms_off_female, tolerance);
    // downhill the signed form differs from the variant with |S| that some programs carry
    if (inputs.s < 0) {
      const got = IRMISCHER_CLARKE.metresPerSecond(inputs.s, true);
      expect(Math.abs(got - expected.ms_on_male_abs_variant)).toBeGreaterThan(0.02);
    }
  },
  'A.campbell2019.': ({ id, inputs, expected, tolerance }) => {
    const model = CAMPBELL.find((m) => m.name === `campbell-${id.slice('A.campbell2019.'.length)}`)!;
    inputs.theta_deg.forEach((degrees: number, i: number) => {
      close(model.metresPerSecond(Math.tan((degrees * Math.PI) / 180), true), expected.ms[i], tolerance);
    });
  },
  'A.campbell2017.': ({ inputs, expected, tolerance }) => {
    const slope = Math.tan((inputs.theta_deg * Math.PI) / 180);
    close(CAMPBELL_LIDAR.metresPerSecond(slope, true), expected.ms_slope_only, tolerance);
  },
  'A.davey.': ({ inputs, expected, tolerance }) =>
    close(DAVEY.metresPerSecond(inputs.s, true), expected.ms, tolerance),
  'A.rees.': ({ inputs, expected, tolerance }) =>
    close(REES.metresPerSecond(inputs.s, true), expected.ms, tolerance),
  'A.naismith.equiv': ({ expected, inputs, tolerance }) =>
    // Scarf's ratio of the first wording: three miles on the level take as long as 2000 feet of climb
    close(inputs.ft_per_3miles / inputs.ft, expected.ratio, tolerance),
  'A.naismith.': ({ inputs, expected, tolerance }) =>
    close(naismithSeconds(inputs.km * 1000, inputs.ascent_m) / 3600, expected.h_metric_5kmh_600mh, tolerance),
  'A.scarf.example': ({ inputs, expected, tolerance }) => {
    const km = equivalentDistance(inputs.km, inputs.climb_km, inputs.alpha);
    close(km, expected.equiv_km, tolerance);
    inputs.kmh.forEach((kmh: number, i: number) => {
      close(km / kmh, expected.h[i], tolerance);
    });
  },
  'A.scarf.': ({ inputs, expected, tolerance }) => {
    const km = equivalentDistance(inputs.km, inputs.climb_m / 1000, inputs.alpha);
    close(km, expected.equiv_km, tolerance);
    close(km / inputs.kmh, expected.h, tolerance);
  },
  'A.langmuir.': ({ inputs, expected, tolerance }) => {
    close(langmuirPace(inputs.s), expected.s_per_m_with5deg, tolerance);
    close(langmuirPace(inputs.s, false), expected.s_per_m_no5deg, tolerance);
    close(NAISMITH_LANGMUIR.metresPerSecond(inputs.s, true) * KMH, expected.kmh_with5deg, tolerance);
  },
  'A.minetti.measured': ({ expected }) => {
    for (const [i, [mean]] of Object.entries<[number, number]>(expected.Cw)) {
      close(measuredWalkingCost(Number(i)), mean, 1e-9);
    }
    // the polynomials, within 4 SD of the measured costs of running and of walking on steep ground
    for (const [i, [mean, sd]] of Object.entries<[number, number]>(expected.Cr)) {
      expect(Math.abs(runningCost(Number(i)) - mean)).toBeLessThan(4 * sd);
    }
  },
  'A.minetti.table': ({ inputs, expected, tolerance }) => {
    inputs.i.forEach((i: number, k: number) => {
      close(measuredWalkingCost(i), expected.Cw_mean[k], tolerance);
    });
    expect(measuredWalkingCost(0.05)).toBeCloseTo((expected.Cw_mean[6] + expected.Cw_mean[7]) / 2, 9);
  },
  'A.minetti.': ({ inputs, expected, tolerance }) => {
    close(walkingCost(inputs.i), expected.Cw_J_kg_m, tolerance);
    close(runningCost(inputs.i), expected.Cr_J_kg_m, tolerance);
  },
  'A.critgrad.minetti.up': ({ expected, tolerance }) => {
    const onMap = (cost: (i: number) => number) => (i: number) => cost(i) * Math.sqrt(1 + i * i);
    const walk = criticalGradient(onMap(walkingCost), 1, 0.45);
    const run = criticalGradient(onMap(runningCost), 1, 0.45);
    close(walk.gradient, expected.walk_i, tolerance);
    close(walk.perHeight, expected.walk_J_per_kg_per_m_climb, tolerance);
    close(run.gradient, expected.run_i, tolerance);
    close(run.perHeight, expected.run, tolerance);
  },
  'A.critgrad.': ({ id, expected, inputs, tolerance }) => {
    const model = inputs.model === 'tobler' ? TOBLER : MARQUEZ_PEREZ;
    const found = criticalGradient((g) => 1 / model.metresPerSecond(g, true), id.endsWith('.up') ? 1 : -1);
    close(found.gradient, expected.m_c, tolerance);
    const perHour = expected.climb_m_per_h ?? expected.descent_m_per_h;
    if (perHour !== undefined) close(3600 / found.perHeight, perHour, tolerance);
  },
  'A.pandolf.': ({ inputs, expected, tolerance }) =>
    close(
      loadedWatts({ kilograms: inputs.W, loadKilograms: inputs.L }, inputs.V, inputs.G, inputs.eta),
      expected.watts,
      tolerance,
    ),
  'A.lcda.naismith_equiv': ({ inputs, expected, tolerance }) => {
    const v = 1.39;
    const [level, steep] = inputs.G.map((g: number) => walkingWattsPerKilogram(v, g));
    // 100 m of climb at 10 % is 1 km: what it costs beyond the level, in km of level
    close(steep / level - 1, expected.equiv_km_per_100m, tolerance);
  },
  'A.lcda.optspeed': ({ expected, tolerance }) => {
    let best = 0.45;
    const perMetre = (v: number) => walkingWattsPerKilogram(v, 0) / v;
    for (let v = 0.45; v <= 1.97; v += 0.001) if (perMetre(v) < perMetre(best)) best = v;
    close(best, expected.v_ms, tolerance);
  },
  'A.lcda.': ({ inputs, expected, tolerance }) =>
    close(walkingWattsPerKilogram(inputs.S, inputs.G), expected.W_per_kg, tolerance),
  'A.terrain.soule': ({ expected }) => expect(TERRAIN_COEFFICIENTS).toEqual(expected),
};

describe('travel time and energy against their sources', () => {
  const families = Object.keys(FAMILIES).sort((a, b) => b.length - a.length);
  test.each(readChecks('speed').map((c) => [c.id, c] as const))('%s', (id, check) => {
    const family = families.find((f) => id.startsWith(f));
    expect(family, `no test takes ${id}`).toBeDefined();
    FAMILIES[family!]!(check);
  });
});

test('Scarf with a party of its own speed is constant on the level and climbs by the equivalence', () => {
  // Scarf 2007: 8 m on the level cost as much as 1 m of climb
  const party = constantSpeed(1.1);
  expect(party.metresPerSecond(0, true)).toBe(1.1);
  expect(party.metresPerSecond(-0.2, true)).toBe(1.1);
  close(1 / party.metresPerSecond(0.1, true), 1.8 / 1.1, 1e-9);
  close(1 / SCARF.metresPerSecond(0.1, true), 1.8 * 0.72, 1e-9);
});
