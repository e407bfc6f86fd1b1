import { describe, expect, test } from 'vitest';
import { SKILL_LEVELS, type SkillLevel } from '../../src/party/party.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import type { World } from '../../src/walk/world.ts';
import { NO_ERRORS } from '../properties/open-ground.ts';
import {
  BENCH_DAY,
  BENCH_LIMITS,
  benchParty,
  benchWorld,
  CERTAIN,
  leg,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { trialsOf } from './trials.ts';
import { ALL_LAYS, AS_WRITTEN, type Lay } from './turned.ts';
import { shareOf, within } from './walked.ts';

/*
 * The search after a last leg of 300 m, 8° crossed at 60° to the fall line, ρ = 1.2, W = 16.5 m, 10 min. Common practice, no
 * published source; figures of an independent simulator with the same defaults (n = 40 000).
 */
const WIDTH = 16.5;
/** Sweep width over range for a thing of medium visibility, c = .5 (Koester et al. 2014). */
const PER_RANGE = 1.6;

interface Way {
  readonly abreast?: number;
  /** Spacing of the strips over the sweep width. */
  readonly spacing?: number;
  readonly minutes?: number;
  readonly seeing?: 'definite' | 'lateral';
}

const done = new Map<string, number>();

function shareFound(lay: Lay, skill: SkillLevel, way: Way, n: number): number {
  const key = JSON.stringify([lay.name, skill, way, n]);
  const known = done.get(key) ?? walk(lay, skill, way, n);
  done.set(key, known);
  return known;
}

function walk(lay: Lay, skill: SkillLevel, way: Way, n: number): number {
  const { abreast = 1, spacing = 1, minutes = 10, seeing = 'definite' } = way;
  const [ux, uy] = lay.at([Math.sin(Math.PI / 3), Math.cos(Math.PI / 3)]);
  const by = Math.tan((8 * Math.PI) / 180) / lay.scale;
  const to = lay.at([0, 300]);
  // the party spaces its strips by what would show on open ground; the ground hides it by 1/spacing of that
  const target = spot('target', 'boulder', to, {
    ...CERTAIN,
    rangeMetres: (spacing * WIDTH * lay.scale) / PER_RANGE,
    contrast: 1,
  });
  const world = benchWorld({
    terrain: plainTerrain(1200, 40, (e, north) => 300 - by * (e * ux + north * uy)),
    features: [target],
    start: lay.at([0, 0]),
    target,
    rho: 1.2,
    seeing,
    limits: { ...BENCH_LIMITS, searchMinutes: minutes * lay.scale, searchPeopleAbreast: abreast },
    conditions: { ...BENCH_DAY, ground: 'dry' },
    party: { ...benchParty(skill), people: abreast },
  });
  const hidden: World = { ...world, roughDetection: world.roughDetection.map(() => 1 / spacing) };
  return shareOf(hidden, route(leg('bearing', lay.at([0, 0]), to, { toFeature: 'target', fine: true })), n);
}

describe('a search, as written', () => {
  const n = trialsOf(3000);
  const near = (skill: SkillLevel, way: Way, expected: number, stated?: number) => {
    const share = shareFound(AS_WRITTEN, skill, way, n);
    expect(Math.abs(share - expected), `${share}, not ${expected}`).toBeLessThanOrEqual(
      within(expected, n, stated),
    );
  };

  test.each([
    ['novice', 0.36, 0.52, 0.74],
    ['competent', 0.77, 0.87, 0.99],
    ['expert', 0.95, 1, 1],
  ] as const)('%s: alone and five abreast', (skill, alone, _three, five) => {
    near(skill, {}, alone);
    near(skill, { abreast: 5 }, five);
  });

  test.each([
    ['novice', 0.52],
    ['expert', 1],
  ] as const)('%s: three abreast', (skill, three) => near(skill, { abreast: 3 }, three));

  // The figures are those of one pass: back for two minutes, then once forward, 3 W wide: P = Φ((1.5 W − b)/σ) − Φ((−1.5 W − b)/σ)
  // with the lateral error N(b, σ²) of the leg, .86 for a competent party
  test('competent: three abreast', () => near('competent', { abreast: 3 }, 0.87));

  test('strips two sweep widths apart lose for those who stop near; for a novice it is all one', () => {
    // stated: −.04, −.32, −.42. A square without errors, reckoned alone, gives −.04, −.28, −.28 (−.34 when its first side points
    // anywhere); the walker's strips waver, so that some of the gaps are walked after all: +.05, −.21, −.24
    const loss = (skill: SkillLevel) =>
      shareFound(AS_WRITTEN, skill, { spacing: 2 }, n) - shareFound(AS_WRITTEN, skill, {}, n);
    expect(Math.abs(loss('novice'))).toBeLessThan(0.08);
    expect(loss('competent')).toBeLessThan(-0.15);
    expect(loss('expert')).toBeLessThan(-0.15);
  });

  test('.75 to 1.25 sweep widths are a tie for a novice', () => {
    const shares = [0.75, 1, 1.25].map((spacing) => shareFound(AS_WRITTEN, 'novice', { spacing }, n));
    expect(Math.max(...shares) - Math.min(...shares)).toBeLessThan(0.06);
  });

  test('under the lateral law three abreast gain little for a competent party', () => {
    const alone = shareFound(AS_WRITTEN, 'competent', { seeing: 'lateral' }, n);
    const three = shareFound(AS_WRITTEN, 'competent', { seeing: 'lateral', abreast: 3 }, n);
    expect(Math.abs(three - alone)).toBeLessThan(0.06);
    expect(three).toBeLessThanOrEqual(0.88);
  });
});

describe.each(ALL_LAYS)('a search, $name', (lay) => {
  const n = trialsOf(500);
  test('more time never lowers the chance, nor do more people abreast', () => {
    for (const skill of SKILL_LEVELS) {
      const by = [0, 5, 10, 20].map((minutes) => shareFound(lay, skill, { minutes }, n));
      for (let i = 1; i < by.length; i++) expect(by[i]!).toBeGreaterThanOrEqual(by[i - 1]!);
      const alone = shareFound(lay, skill, {}, n);
      expect(shareFound(lay, skill, { abreast: 5 }, n)).toBeGreaterThan(alone - 0.01);
    }
  });
  test('the better navigator gains from strips that touch', () => {
    const loss = (skill: SkillLevel) =>
      shareFound(lay, skill, {}, n) - shareFound(lay, skill, { spacing: 2 }, n);
    expect(loss('expert')).toBeGreaterThan(0.1);
    expect(loss('competent')).toBeGreaterThan(0.1);
    expect(loss('novice')).toBeLessThan(loss('competent'));
  });
});

/** Mean search time without errors to a target `rWidths` sweep widths away, over directions all round, seconds. */
function seconds(lay: Lay, rWidths: number, directions: number): number {
  const w = WIDTH * lay.scale;
  let sum = 0;
  for (let k = 0; k < directions; k++) {
    const a = (2 * Math.PI * (k + 0.5)) / directions;
    const at = lay.at([rWidths * WIDTH * Math.sin(a), 5 + rWidths * WIDTH * Math.cos(a)]);
    const target = spot('target', 'boulder', at, { ...CERTAIN, sweepWidthMetres: w });
    const world = benchWorld({
      terrain: plainTerrain(400, 40),
      features: [target],
      start: lay.at([0, 0]),
      target,
      limits: { ...BENCH_LIMITS, searchMinutes: 900 },
      party: benchParty('expert', NO_ERRORS),
    });
    const plan = route(leg('bearing', lay.at([0, 0]), lay.at([0, 5]), { toFeature: 'target' }));
    const attempt = new Attempt(world, planLegs(world, plan));
    let from = 0;
    attempt.watcher = {
      event(kind, body) {
        if (kind === 'searches') from = body.clock;
      },
    };
    const r = attempt.run(1, 0);
    if (!r.found) throw new Error('a search without errors and without end finds it');
    sum += r.seconds - from;
  }
  return sum / directions;
}

test.each(ALL_LAYS)('a miss of R costs the area of its square: about 4R²/(W·v), $name', (lay) => {
  const radii = [2, 3, 4, 6, 8];
  const w = WIDTH * lay.scale;
  const times = radii.map((r) => seconds(lay, r, 48));
  for (const [i, r] of radii.entries()) {
    const ratio = times[i]! / ((4 * (r * w) ** 2) / ((w * 25) / 60));
    expect(ratio).toBeGreaterThan(0.8);
    expect(ratio).toBeLessThan(1.05);
  }
  const exponent = Math.log(times[4]! / times[0]!) / Math.log(4);
  expect(exponent).toBeGreaterThan(1.75);
  expect(exponent).toBeLessThan(2);
});
