import { describe, expect, test } from 'vitest';
import { surfaceFactors } from '../../src/conditions/underfoot.ts';
import { UserError } from '../../src/door/user-error.ts';
import { assumptionOfSpeed } from '../../src/speed/assumption.ts';
import { terrainCoefficient } from '../../src/speed/energy-pandolf.ts';
import { SPEED_MODELS, speedModel } from '../../src/speed/models.ts';
import { NAISMITH } from '../../src/speed/naismith.ts';
import { PACE_REACH, PACE_STEPS, paceIndex, paceTable, surfaceSlowness } from '../../src/speed/pace-table.ts';
import { TOBLER } from '../../src/speed/tobler.ts';
import { SURFACES } from '../../src/terrain/terrain.ts';

const LEVEL = PACE_REACH * PACE_STEPS;

describe('every model of the list', () => {
  test('has a name of its own, a source and a warning', () => {
    expect(new Set(SPEED_MODELS.map((m) => m.name)).size).toBe(SPEED_MODELS.length);
    for (const m of SPEED_MODELS) {
      expect(m.source).toMatch(/\(\d{4}\)/);
      expect(m.warning.length).toBeGreaterThan(40);
      expect(assumptionOfSpeed(m)).toMatchObject({ mark: 'published', source: m.source });
      expect(assumptionOfSpeed(m).value).toContain(m.warning);
    }
  });

  test('never beats the bound that the search relies on, on any gradient or ground', () => {
    for (const m of SPEED_MODELS) {
      let fastest = 0;
      let slowestOff = Number.POSITIVE_INFINITY;
      for (let g = -2; g <= 2; g += 0.001) {
        fastest = Math.max(fastest, m.metresPerSecond(g, true));
        slowestOff = Math.min(slowestOff, m.metresPerSecond(g, false));
      }
      expect(1 / fastest).toBeGreaterThanOrEqual(m.bestPace * (1 - 1e-12));
      expect(slowestOff).toBeGreaterThan(0);
      const table = paceTable(m, false);
      const least = Math.min(...SURFACES.map((s) => surfaceSlowness(m, s)));
      expect(Math.min(...table) * least).toBeGreaterThanOrEqual(m.bestPace * (1 - 1e-6));
    }
  });

  test('gives the bound nearly: it is no empty one', () => {
    for (const m of SPEED_MODELS) {
      let best = Number.POSITIVE_INFINITY;
      for (let g = -0.5; g <= 0.2; g += 0.0001) best = Math.min(best, 1 / m.metresPerSecond(g, true));
      expect(best / m.bestPace).toBeLessThan(1.001);
    }
  });
});

test('the default and a speed of its own', () => {
  expect(SPEED_MODELS[0]?.name).toBe('irmischer-clarke');
  expect(speedModel('tobler')).toBe(TOBLER);
  expect(speedModel({ metresPerSecond: 1.1 }).metresPerSecond(0, true)).toBe(1.1);
  expect(() => speedModel('toblr')).toThrow(UserError);
  expect(() => speedModel('toblr')).toThrow(/got "toblr".*tobler.*expected irmischer-clarke/);
});

describe('pace table', () => {
  test('holds the model where nobody zig-zags', () => {
    for (const m of SPEED_MODELS) {
      const table = paceTable(m, true);
      expect(table).toHaveLength(2 * LEVEL + 1);
      for (const i of [LEVEL, LEVEL + 20, LEVEL - 20]) {
        const g = (i - LEVEL) / PACE_STEPS;
        expect(table[i]! * m.metresPerSecond(g, true)).toBeCloseTo(1, 6);
      }
    }
  });

  test('beyond the critical gradient a metre of height costs the same however steep (Kay 2012)', () => {
    const table = paceTable(TOBLER, true);
    // Tobler: greatest climb 529.40 m/h at 1/3.5, greatest descent 751.26 m/h (derived from the formula)
    for (const i of [100, 200, 400, 512]) {
      const height = i / PACE_STEPS;
      expect((3600 * height) / table[LEVEL + i]!).toBeCloseTo(529.404, 1);
      expect((3600 * height) / table[LEVEL - i]!).toBeCloseTo(751.26, 0);
    }
    // straight up a gradient of 1 would take three times as long
    expect(1 / TOBLER.metresPerSecond(1, true)).toBeGreaterThan(3 * table[LEVEL + 256]!);
  });

  test('a rule whose descent jumps is taken as it is', () => {
    const langmuir = paceTable(speedModel('naismith-langmuir'), true);
    // 27 degrees down: 0.72 + 1.9998/2, no zig-zag on the quick side of the jump at 12 degrees
    expect(langmuir[LEVEL - 128]).toBeCloseTo(1.7199, 4);
  });

  test('index of a gradient, clamped', () => {
    expect(paceIndex(0)).toBe(LEVEL);
    expect(paceIndex(0.1)).toBe(LEVEL + 26);
    expect(paceIndex(-9)).toBe(0);
    expect(paceIndex(9)).toBe(2 * LEVEL);
  });
});

describe('surfaces', () => {
  test('with an off-path curve grass is that curve, the path the ratio of the two', () => {
    expect(surfaceSlowness(TOBLER, 'grass')).toBe(1);
    expect(surfaceSlowness(TOBLER, 'path')).toBeCloseTo(0.6, 12);
    expect(surfaceSlowness(TOBLER, 'heather')).toBeCloseTo(0.87 / 0.65, 12);
  });

  test('without one the surface scales the one curve', () => {
    for (const s of SURFACES)
      expect(surfaceSlowness(NAISMITH, s) * surfaceFactors(s).speed).toBeCloseTo(1, 12);
  });

  test('energy: soft ground costs more than firm', () => {
    const eta = SURFACES.map(terrainCoefficient);
    expect(eta[0]).toBe(1.1);
    expect(Math.max(...eta)).toBe(1.8);
  });
});
