import { describe, expect, test } from 'vitest';
import type { GroundWetness } from '../../src/conditions/conditions.ts';
import type { SkillLevel } from '../../src/party/party.ts';
import { skillOf } from '../../src/party/presets.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { FALSE_FIND, LOST, NEAR_MISS, outcomeOf, TURNED_BACK } from '../../src/walk/tally.ts';
import {
  BENCH_DAY,
  benchParty,
  benchWorld,
  CERTAIN,
  leg,
  line,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { trialsOf } from './trials.ts';
import { ALL_LAYS, AS_WRITTEN, type Lay } from './turned.ts';
import { within } from './walked.ts';

/*
 * Two like streams across the way, both on the map, the second wanted. Common practice, no published source; figures of an
 * independent simulator where the comment beside them does not say otherwise.
 */
const DISTANCE = 400;
const OFF = 60;

interface Way {
  readonly apart: number;
  readonly ground?: GroundWetness;
  readonly firstIsThere?: boolean;
  readonly lookalike?: number;
  /** Rivulets like a stream met per 100 m, in place of those of the ground. */
  readonly alikePer100?: number;
}

interface Walks {
  /** Taken for the second stream: the first one, the second one, anything else; shares. */
  first: number;
  second: number;
  /** Of those who took the first: outcomes. */
  wrong: number[];
  /** The second line met was the second stream. */
  counted: number;
}

function walk(lay: Lay, skill: SkillLevel, way: Way, trials: number): Walks {
  const at = (x: number, y: number) => lay.at([x, y]);
  const { apart, ground = 'dry', firstIsThere = true } = way;
  const early = line('early', 'stream', [at(-900, DISTANCE - apart), at(900, DISTANCE - apart)], {
    exists: firstIsThere ? 1 : 0,
    positionMetres: 0,
  });
  const second = line('second', 'stream', [at(-900, DISTANCE), at(900, DISTANCE)], CERTAIN);
  const target = spot('target', 'boulder', at(OFF, DISTANCE), {
    ...CERTAIN,
    sweepWidthMetres: 20 * lay.scale,
  });
  const [ux, uy] = lay.at([1, 0]);
  const drawn = benchWorld({
    terrain: plainTerrain(1400, 40, (e, n) => 600 + (e * ux + n * uy) / 20 / lay.scale),
    features: [early, second, target],
    start: at(0, 0),
    target,
    conditions: { ...BENCH_DAY, ground },
    party: benchParty(skill, {
      driftDegrees: 0,
      ...(way.lookalike === undefined ? {} : { lookalikeShare: way.lookalike }),
    }),
  });
  const world =
    way.alikePer100 === undefined ? drawn : { ...drawn, rivuletsPer100: way.alikePer100, rivuletsAlike: 1 };
  const plan = route(
    leg('aim-off', at(0, 0), at(0, DISTANCE), {
      line: 'second',
      offsetMetres: OFF * lay.scale,
      side: 'left',
      wanted: at(OFF, DISTANCE),
    }),
    leg('handrail', at(0, DISTANCE), at(OFF, DISTANCE), { line: 'second', toFeature: 'target', fine: true }),
  );
  const attempt = new Attempt(world, planLegs(world, plan));
  const { senses } = attempt;
  const [a, b] = [world.lineById.get('early')!, world.lineById.get('second')!];
  let taken = -1;
  let met = 0;
  let right = false;
  const look = senses.look.bind(senses);
  senses.look = (p) => {
    const noticed = look(p);
    if (attempt.mind.leg.number === 0 && p.metFamily !== 0 && taken < 0) {
      met++;
      if (met === 2) right = senses.metLine === b;
    }
    return noticed;
  };
  attempt.watcher = {
    event(kind, _body, _mind, number) {
      if (kind === 'leg' && number === 1 && taken < 0) taken = senses.metLine;
    },
  };
  const w: Walks = { first: 0, second: 0, wrong: [], counted: 0 };
  for (let k = 0; k < trials; k++) {
    taken = -1;
    met = 0;
    right = false;
    const r = attempt.run(1, k);
    if (taken === a) {
      w.first++;
      w.wrong.push(outcomeOf(world, r));
    }
    if (taken === b) w.second++;
    if (right) w.counted++;
  }
  return { ...w, first: w.first / trials, second: w.second / trials, counted: w.counted / trials };
}

/** SD of the count over a metre walked: day and leg together. */
const perMetre = (skill: SkillLevel) => Math.sqrt(1 + 1 / 9) * skillOf(skill).paceShare;

/**
 * Chance to take the first stream for the second, without miscounts: c = (D − s)/(1 + ε) is counted (and up to a step more), ε ~ N(0, σ²); the second is
 * z = (D − c)/√((c·σ)² + 5²) away; taken for it with a^((z/2)²), or for certain when it is the nearer of the two on the map.
 */
function taking(skill: SkillLevel, apart: number, share: number): number {
  const sd = perMetre(skill);
  let sum = 0;
  let weight = 0;
  for (let u = -6; u <= 6; u += 0.01) {
    // the step in which it is met ends up to 10 m beyond
    for (let beyond = 1; beyond < 10; beyond += 2) {
      const counted = (DISTANCE - apart + beyond) / (1 + sd * u);
      const spread = Math.sqrt((counted * sd) ** 2 + 25);
      const z = Math.abs(DISTANCE - counted) / spread;
      const nearer = Math.abs(DISTANCE - counted) < Math.abs(DISTANCE - apart - counted);
      const w = Math.exp(-0.5 * u * u);
      sum += w * (nearer ? 1 : share > 0 ? share ** ((z / 2) * (z / 2)) : 0);
      weight += w;
    }
  }
  return sum / weight;
}

describe('twin streams, as written', () => {
  const n = trialsOf(1000);
  const of = (skill: SkillLevel, way: Way) => walk(AS_WRITTEN, skill, way, n);

  // stated for a novice: .65/.40/.20. Those take the doubt at the end of the 400 m (42 m) for the clash at the first stream:
  // E a^((z/2)²) with z ~ N(s/42, 1) is .62/.39/.21. After 280 counted metres it is 30 m, and the clash is the larger for it
  test.each([80, 120, 160])('novice, %d m apart: the first is taken as often as its clash says', (apart) => {
    const expected = taking('novice', apart, 0.6);
    const { first } = of('novice', { apart });
    expect(Math.abs(first - expected), `${first}, not ${expected}`).toBeLessThanOrEqual(within(expected, n));
    expect(first).toBeGreaterThan(of('novice', { apart, lookalike: 0 }).first + 0.03);
  });
  test.each([
    [80, 0.15],
    [120, 0.06],
    [160, 0.02],
  ])('novice, %d m apart, by likelihood alone', (apart, expected) => {
    expect(Math.abs(of('novice', { apart, lookalike: 0 }).first - expected)).toBeLessThanOrEqual(
      within(expected, n),
    );
  });
  test('competent: .05 at 80 m, next to none beyond; expert: none', () => {
    expect(Math.abs(of('competent', { apart: 80 }).first - 0.05)).toBeLessThanOrEqual(0.04);
    expect(of('competent', { apart: 120 }).first).toBeLessThan(0.01);
    expect(of('competent', { apart: 160 }).first).toBe(0);
    for (const apart of [80, 120, 160]) expect(of('expert', { apart }).first).toBeLessThan(0.002);
  });

  test('who takes the wrong one, 120 m away, finds nothing and is no near miss', () => {
    const { wrong } = of('novice', { apart: 120 });
    expect(wrong.length).toBeGreaterThan(n / 6);
    // with no other like thing about nothing is declared: lost, or back at a known point
    for (const o of wrong) expect([FALSE_FIND, LOST, TURNED_BACK, NEAR_MISS]).toContain(o);
    expect(wrong.filter((o) => o === NEAR_MISS).length).toBeLessThanOrEqual(0.02 * wrong.length);
  });

  test('counting to two is right where both are there and nothing else is, and wrong where the first is dry', () => {
    expect(of('competent', { apart: 120 }).counted).toBeGreaterThan(0.99);
    expect(of('competent', { apart: 120, firstIsThere: false }).counted).toBe(0);
    // belief does not count
    expect(of('competent', { apart: 120, firstIsThere: false }).second).toBeGreaterThan(0.95);
  });

  // .3 and 1 rivulets per 100 m, half of them like a stream: e^(−.6) and e^(−2) meet none in 400 m. The stated .37 and .05 are
  // e^(−1) and e^(−3): a rate of 1.67 and 1.5 times the model's. The stated .84 and .60 of belief belong to those
  test.each([
    ['wet', Math.exp(-0.6)],
    ['saturated', Math.exp(-2)],
  ] as const)('on %s ground an unmapped rivulet is counted; belief does better', (ground, none) => {
    const w = of('competent', { apart: 120, ground });
    expect(Math.abs(w.counted - none), `${w.counted}, not ${none}`).toBeLessThanOrEqual(within(none, n));
    expect(w.second).toBeGreaterThan(w.counted + 0.3);
  });
  test.each([
    ['wet', 1, 0.84],
    ['saturated', 3, 0.6],
  ] as const)('with as many rivulets as the stated figures ask for, %s', (ground, met, stated) => {
    const w = of('competent', { apart: 120, ground, alikePer100: met / 4 });
    expect(Math.abs(w.counted - Math.exp(-met))).toBeLessThanOrEqual(within(Math.exp(-met), n));
    expect(w.second).toBeGreaterThanOrEqual(stated - 0.04);
  });
});

describe.each(ALL_LAYS)('twin streams, $name', (lay) => {
  test('the nearer the twin and the poorer the navigator, the more often it is taken; belief beats the count on wet ground', () => {
    const n = trialsOf(300);
    const first = (skill: SkillLevel, apart: number) => walk(lay, skill, { apart }, n).first;
    const [near, far] = [first('novice', 80), first('novice', 160)];
    expect(near).toBeGreaterThan(far + 0.2);
    expect(near).toBeGreaterThan(first('competent', 80) + 0.2);
    expect(first('expert', 80)).toBeLessThan(0.01);
    const wet = walk(lay, 'competent', { apart: 120, ground: 'wet' }, n);
    expect(wet.second).toBeGreaterThan(wet.counted + 0.2);
  });
});
