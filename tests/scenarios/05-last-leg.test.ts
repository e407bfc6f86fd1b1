import { describe, expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import type { SkillLevel } from '../../src/party/party.ts';
import { benchParty, benchWorld, leg, plainTerrain, route, spot } from '../walk/plain-ground.ts';
import { ALL_LAYS, AS_WRITTEN, type Lay, VARIANTS } from './turned.ts';
import { shareOf, stoppedWithin, stops, within } from './walked.ts';

/*
 * The last leg: 6° of slope crossed at 60° to the fall line, ρ = 1.2, r = 15 m. Common practice, no published source; the
 * figures are those of an independent simulator with the same defaults (n = 40 000).
 */
const LENGTHS = [50, 100, 150, 200, 300, 500];
const SKILLS: readonly SkillLevel[] = ['novice', 'competent', 'expert'];
const STOPS: Readonly<Record<SkillLevel, readonly number[]>> = {
  novice: [0.89, 0.51, 0.29, 0.18, 0.09, 0.04],
  competent: [1, 0.93, 0.73, 0.54, 0.31, 0.13],
  expert: [1, 1, 1, 0.96, 0.78, 0.44],
};
const PASSES: Readonly<Record<SkillLevel, readonly number[]>> = {
  novice: [0.93, 0.64, 0.45, 0.34, 0.23, 0.13],
  competent: [1, 0.96, 0.82, 0.68, 0.48, 0.29],
  expert: [1, 1, 1, 0.98, 0.86, 0.61],
};
const TRIALS = 2000;

/** Ground that falls by 6° towards where the scenario's 60° from the leg's direction lie once laid. */
function tilted(lay: Lay) {
  const [ux, uy] = lay.at([Math.sin(Math.PI / 3), Math.cos(Math.PI / 3)]);
  const by = Math.tan(Math.PI / 30) / lay.scale;
  return plainTerrain(1200, 40, (e, n) => 300 - by * (e * ux + n * uy));
}

function setting(lay: Lay, skill: SkillLevel, metres: number, radius: number, terrain = tilted(lay)) {
  const to: Point = lay.at([0, metres]);
  const target = spot('target', 'boulder', to, {
    sweepWidthMetres: 2 * radius,
    exists: 1,
    positionMetres: 0,
  });
  const world = benchWorld({
    terrain,
    features: [target],
    start: [0, 0],
    target,
    rho: 1.2,
    party: benchParty(skill),
  });
  return { world, to, plan: route(leg('bearing', [0, 0], to, { toFeature: 'target', fine: true })) };
}

describe('the last leg, as written', () => {
  const terrain = tilted(AS_WRITTEN);
  test.each(SKILLS)('%s: passes within r and stops within r', (skill) => {
    for (const [i, metres] of LENGTHS.entries()) {
      const seen = setting(AS_WRITTEN, skill, metres, 15, terrain);
      const passes = shareOf(seen.world, seen.plan, TRIALS);
      const expected = PASSES[skill][i]!;
      expect(
        Math.abs(passes - expected),
        `passes at ${metres} m: ${passes}, not ${expected}`,
      ).toBeLessThanOrEqual(within(expected, TRIALS));
      // a target that nobody sees lets the leg run to its count
      const unseen = setting(AS_WRITTEN, skill, metres, 0.01, terrain);
      const stopped = stoppedWithin(stops(unseen.world, unseen.plan, TRIALS), unseen.to[0], unseen.to[1], 15);
      expect(
        Math.abs(stopped - STOPS[skill][i]!),
        `stops at ${metres} m: ${stopped}, not ${STOPS[skill][i]}`,
      ).toBeLessThanOrEqual(within(STOPS[skill][i]!, TRIALS));
    }
  });
});

describe.each(ALL_LAYS)('the last leg, $name', (lay) => {
  test('never rises with length; expert ≥ competent ≥ novice', () => {
    const terrain = tilted(lay);
    const n = VARIANTS.includes(lay) ? 800 : 1000;
    // common random numbers: the order holds but for a trial in a hundred
    const slack = 0.01;
    const bySkill = SKILLS.map((skill) =>
      LENGTHS.map((metres) => {
        const s = setting(lay, skill, metres * lay.scale, 15 * lay.scale, terrain);
        return shareOf(s.world, s.plan, n);
      }),
    );
    for (const shares of bySkill)
      for (let i = 1; i < shares.length; i++) expect(shares[i]!).toBeLessThanOrEqual(shares[i - 1]! + slack);
    for (let i = 0; i < LENGTHS.length; i++) {
      expect(bySkill[1]![i]!).toBeGreaterThanOrEqual(bySkill[0]![i]! - slack);
      expect(bySkill[2]![i]!).toBeGreaterThanOrEqual(bySkill[1]![i]! - slack);
    }
    // and the differences are large where the leg is long
    expect(bySkill[2]![4]!).toBeGreaterThan(bySkill[1]![4]! + 0.2);
    expect(bySkill[1]![4]!).toBeGreaterThan(bySkill[0]![4]! + 0.1);
    for (const shares of bySkill) expect(shares[5]!).toBeLessThan(shares[1]! - 0.25);
  });
});
