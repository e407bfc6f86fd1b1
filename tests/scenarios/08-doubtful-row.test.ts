import { describe, expect, test } from 'vitest';
import type { Feature } from '../../src/features/feature.ts';
import { SKILL_LEVELS, type Skill, type SkillLevel } from '../../src/party/party.ts';
import { skillOf } from '../../src/party/presets.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
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
 * The sixth of eight posts in a row, 40 m from one to the next: counted along the row, or paced 150 m along a line from a certain
 * junction. Common practice, no published source; figures of an independent simulator with the same defaults (n = 40 000), and a
 * perfect row by closed form: all of the first six must be noticed.
 */
const GAP = 40;
const MEMBERS = 8;
const SIXTH = 6 * GAP;
const RIGHT = 20;

interface Row {
  readonly exists?: number;
  readonly sd?: number;
  readonly extra?: number;
  readonly noticed?: number;
}

/** Walks along the row, straight and with an eye for it, and stops at the count; share within 20 m of the right place. */
function counted(lay: Lay, skill: SkillLevel, row: Row, trials: number): number {
  const { exists = 0.85, sd = 10, extra = 0.1, noticed = skillOf(skill).noticedShare } = row;
  const posts = Array.from(
    { length: MEMBERS },
    (_, i): Feature => ({
      ...spot(`post-${i + 1}`, 'post', lay.at([0, (i + 1) * GAP]), {
        exists,
        positionMetres: sd * lay.scale,
        extraPerGap: extra,
        rangeMetres: 60 * lay.scale,
      }),
      row: 'row',
      rowPlace: i + 1,
    }),
  );
  const target = spot('target', 'boulder', lay.at([600, 600]), { ...CERTAIN, sweepWidthMetres: 1 });
  const straight: Partial<Skill> = {
    bearingDegrees: 0,
    wanderMetres: 0,
    driftDegrees: 0,
    noticedShare: noticed,
  };
  const world = benchWorld({
    terrain: plainTerrain(1200, 40),
    features: [...posts, target],
    start: lay.at([0, 0]),
    target,
    stepMetres: 5,
    conditions: { ...BENCH_DAY, ground: 'dry' },
    party: benchParty(skill, straight),
  });
  const to = lay.at([0, SIXTH]);
  const plan = route(
    leg('bearing', lay.at([0, 0]), to, { toFeature: 'post-6', counting: true }),
    leg('bearing', to, lay.at([600, 600])),
  );
  const attempt = new Attempt(world, planLegs(world, plan));
  let right = 0;
  attempt.watcher = {
    event(kind, body, _mind, number) {
      if (kind !== 'leg' || number !== 1) return;
      if (Math.hypot(body.x - to[0], body.y - to[1]) <= RIGHT * lay.scale) right++;
    },
  };
  for (let k = 0; k < trials; k++) attempt.run(1, k);
  return right / trials;
}

/** Paced 150 m along a wall from a junction that is there and sure to 6 m. */
function paced(lay: Lay, skill: SkillLevel, trials: number): number {
  const at = (x: number, y: number) => lay.at([x, y]);
  const wall = line('wall', 'wall', [at(0, -600), at(0, 600)], CERTAIN);
  const arm = line('arm', 'wall', [at(0, 0), at(-400, 0)], CERTAIN);
  const target = spot('target', 'boulder', at(600, 600), { ...CERTAIN, sweepWidthMetres: 1 });
  const drawn = benchWorld({
    terrain: plainTerrain(1200, 40),
    features: [wall, arm, target],
    start: at(0, 0),
    target,
    conditions: { ...BENCH_DAY, ground: 'dry' },
    party: benchParty(skill, { junctionShare: 0, handrailLossPerKm: 0 }),
  });
  const junction = drawn.spots.findIndex((s) => s.feature.kind === 'junction');
  const spots = drawn.spots.map((s) =>
    s.index === junction ? { ...s, exists: 1, shift: { mean: 0, sd: 6 * lay.scale } } : s,
  );
  const world = { ...drawn, spots, startSpot: junction };
  const to = at(0, 150);
  const plan = route(leg('handrail', at(0, 0), to, { line: 'wall' }), leg('bearing', to, at(600, 600)));
  const attempt = new Attempt(world, planLegs(world, plan));
  let right = 0;
  attempt.watcher = {
    event(kind, body, _mind, number) {
      if (kind !== 'leg' || number !== 1) return;
      if (Math.hypot(body.x - to[0], body.y - to[1]) <= RIGHT * lay.scale) right++;
    },
  };
  for (let k = 0; k < trials; k++) attempt.run(1, k);
  return right / trials;
}

const PERFECT: Row = { exists: 1, sd: 5, extra: 0, noticed: 1 };

describe('a doubtful row, as written', () => {
  const n = trialsOf(900);
  test.each([
    ['novice', 0.17, 0.76],
    ['competent', 0.28, 0.96],
    ['expert', 0.33, 0.99],
  ] as const)('%s: the count, and 150 m from a certain junction', (skill, row, junction) => {
    const shares = [counted(AS_WRITTEN, skill, {}, n), paced(AS_WRITTEN, skill, n)];
    for (const [i, expected] of [row, junction].entries())
      expect(Math.abs(shares[i]! - expected), `${shares[i]}, not ${expected}`).toBeLessThanOrEqual(
        within(expected, n),
      );
  });

  test.each(SKILL_LEVELS)('%s: a perfect row is counted right, noticed by skill it loses', (skill) => {
    expect(counted(AS_WRITTEN, skill, PERFECT, trialsOf(250))).toBeGreaterThan(0.99);
    // closed form: the first six all noticed
    const { noticedShare } = skillOf(skill);
    const by = counted(AS_WRITTEN, skill, { ...PERFECT, noticed: noticedShare }, n);
    expect(Math.abs(by - noticedShare ** 6)).toBeLessThanOrEqual(within(noticedShare ** 6, n));
    expect(by).toBeLessThan(paced(AS_WRITTEN, skill, n));
  });
});

describe.each(ALL_LAYS)('a doubtful row, $name', (lay) => {
  test('the junction beats the count, a perfect row beats both', () => {
    const n = trialsOf(150);
    for (const skill of SKILL_LEVELS) {
      const junction = paced(lay, skill, n);
      expect(junction).toBeGreaterThan(counted(lay, skill, {}, n) + 0.3);
      expect(counted(lay, skill, PERFECT, n)).toBeGreaterThanOrEqual(junction - 0.005);
    }
  });
});
