import { expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { shareOf, stoppedWithin, stops } from '../scenarios/walked.ts';
import { BENCH_DAY, benchParty, benchWorld, leg, line, plainTerrain, route, spot } from './plain-ground.ts';

/*
 * The walker against closed forms of plane geometry and the normal distribution. The values are derived for small angles; each
 * says what it is derived from. Tolerance: four standard errors or .003, whichever is more. `closed-forms.test.ts` runs them
 * quickly, its namesake in `tests/long` with more trials and five seeds.
 */
const terrain = plainTerrain(1400, 40);

/** A party that errs in bearing and pace alone: SD of both as given, a leg's share of pace included. */
function straightParty(bearingDegrees: number, pace: number, more: Partial<Skill> = {}) {
  return benchParty('competent', {
    bearingDegrees,
    // day and leg together are 1.054 of the day's SD
    paceShare: pace / Math.sqrt(1 + 1 / 9),
    wanderMetres: 0,
    driftDegrees: 0,
    ...more,
  });
}

const START: Point = [0, -600];

function task(metres: number, radius: number, party: ReturnType<typeof straightParty>, place?: Point) {
  const to: Point = [0, -600 + metres];
  const target = spot('target', 'boulder', place ?? to, {
    sweepWidthMetres: 2 * radius,
    exists: 1,
    positionMetres: 0,
  });
  return { to, world: benchWorld({ terrain, features: [target], start: START, target, party }) };
}

// D.drhit: lateral SD = L·σ (rad), along SD = L·σ_pace, bivariate normal; "passes" is 2Φ(R/σ_lateral) − 1. Derived; a polar
// walk differs a little (banana shape): .002 for σ ≤ 5°
const HITS = [
  { L: 500, bearing: 3, pace: 0.05, R: 25, stop: 0.3795707038, pass: 0.6603867299 },
  { L: 500, bearing: 3, pace: 0.05, R: 50, stop: 0.8516116478, pass: 0.9438486706 },
  { L: 1000, bearing: 4, pace: 0.05, R: 50, stop: 0.2984986393, pass: 0.5261304353 },
  { L: 300, bearing: 2, pace: 0.03, R: 15, stop: 0.6944204982, pass: 0.8479690448 },
  { L: 250, bearing: 5, pace: 0.1, R: 30, stop: 0.5604095502, pass: 0.8308991552 },
];
const BANANA = 0.002;

/** The checks with one seed and so many trials. */
export function closedForms(seed: number, trials: number): void {
  const near = (p: number) => Math.max(0.003, 4 * Math.sqrt((p * (1 - p)) / trials));

  test.each(HITS)('a leg of $L m at $bearing° and $pace of pace stops within $R m', (h) => {
    const { world, to } = task(h.L, h.R, straightParty(h.bearing, h.pace), [1200, 1200]);
    const at = stops(world, route(leg('bearing', START, to)), trials, seed);
    expect(Math.abs(stoppedWithin(at, to[0], to[1], h.R) - h.stop)).toBeLessThan(near(h.stop) + BANANA);
  });

  test.each(HITS)('an endless line of $L m at $bearing° passes within $R m', (h) => {
    // the leg is planned a third longer than the target lies: nobody stops short of it
    const { world } = task(h.L, h.R, straightParty(h.bearing, h.pace));
    const far: Point = [0, -600 + 1.35 * h.L];
    const share = shareOf(world, route(leg('bearing', START, far)), trials, (r) => r.found, seed);
    expect(Math.abs(share - h.pass)).toBeLessThan(near(h.pass) + BANANA);
  });

  test('a leg that stops at its count passes within 25 m of 500 m less often: .521', () => {
    // ∬ over stops: passes when it stops beyond the foot of the perpendicular, or within R of it (numeric integration of the
    // same bivariate normal; stated by the scenarios of this project)
    const { world, to } = task(500, 25, straightParty(3, 0.05));
    const plan = route(leg('bearing', START, to, { toFeature: 'target' }));
    expect(Math.abs(shareOf(world, plan, trials, (r) => r.found, seed) - 0.521)).toBeLessThan(
      near(0.521) + BANANA,
    );
  });

  // D.segment: Φ((h − b)/σ) − Φ((−h − b)/σ). Derived
  test.each([
    { half: 10, bias: 0, sd: 10, p: 0.6826894921 },
    { half: 25, bias: 0, sd: 20, p: 0.7887004527 },
    { half: 25, bias: 30, sd: 20, p: 0.3983139111 },
    { half: 50, bias: 0, sd: 26.18, p: 0.9438480954 },
  ])('a wall of $half m to either side, met with SD $sd m and a bias of $bias m', ({ half, bias, sd, p }) => {
    const ahead = 500;
    const wall = line(
      'wall',
      'wall',
      [
        [bias - half, -600 + ahead],
        [bias + half, -600 + ahead],
      ],
      {
        exists: 1,
        positionMetres: 0,
      },
    );
    const target = spot('target', 'boulder', [1200, 1200], { exists: 1, sweepWidthMetres: 1 });
    const world = benchWorld({
      terrain,
      features: [wall, target],
      start: START,
      target,
      party: straightParty((Math.atan(sd / ahead) * 180) / Math.PI, 0),
    });
    const plan = route(
      leg('aim-off', START, [0, -600 + ahead], {
        line: 'wall',
        offsetMetres: 30,
        side: 'left',
        wanted: [30, -600 + ahead],
      }),
      leg('bearing', [0, -600 + ahead], [0, 0]),
    );
    // whether it is met is geometry; what the party makes of it is another matter
    let met = 0;
    let now = false;
    const attempt = new Attempt(world, planLegs(world, plan));
    const look = attempt.senses.look.bind(attempt.senses);
    attempt.senses.look = (percepts) => {
      const noticed = look(percepts);
      if (attempt.mind.leg.number === 0 && percepts.metFamily !== 0) now = true;
      return noticed;
    };
    for (let k = 0; k < trials; k++) {
      now = false;
      attempt.run(seed, k);
      if (now) met++;
    }
    expect(Math.abs(met / trials - p)).toBeLessThan(near(p) + BANANA);
  });

  // D.aimoff: Φ(k), the side on which the line is met when the aim is k SD to one side. Derived
  test.each([
    { k: 0, p: 0.5 },
    { k: 1, p: 0.8413447461 },
    { k: 1.2816, p: 0.9000084999 },
    { k: 1.6449, p: 0.9500047825 },
    { k: 2, p: 0.9772498681 },
    { k: 2.3263, p: 0.989998724 },
    { k: 3, p: 0.998650102 },
  ])('aimed off by $k SD the line is met on the intended side', ({ k, p }) => {
    const ahead = 600;
    const sd = ahead * ((2.5 * Math.PI) / 180);
    const stream = line(
      'stream',
      'stream',
      [
        [-1200, 0],
        [1200, 0],
      ],
      { exists: 1, positionMetres: 0 },
    );
    const target = spot('target', 'boulder', [1200, 1200], { exists: 1, sweepWidthMetres: 1 });
    const world = benchWorld({
      terrain,
      features: [stream, target],
      start: START,
      target,
      conditions: { ...BENCH_DAY, ground: 'dry' },
      party: straightParty(2.5, 0),
    });
    const aim: Point = [-k * sd, START[1] + ahead];
    const plan = route(
      leg('aim-off', START, aim, { line: 'stream', offsetMetres: k * sd, side: 'left', wanted: [0, 0] }),
      leg('bearing', aim, [0, 300]),
    );
    let left = 0;
    const attempt = new Attempt(world, planLegs(world, plan));
    attempt.watcher = {
      event(kind, body, _mind, number) {
        if (kind === 'leg' && number === 1 && body.x < 0) left++;
      },
    };
    for (let t = 0; t < trials; t++) attempt.run(seed, t);
    expect(Math.abs(left / trials - p)).toBeLessThan(near(p) + BANANA);
  });

  test('wander adds variances: √(d/100)·w after d metres, whatever the step', () => {
    // independent increments; 4 SE of an SD over n trials are 4/√(2n) of it
    for (const stepMetres of [5, 10, 20]) {
      const target = spot('target', 'boulder', [1200, 1200], { exists: 1, sweepWidthMetres: 1 });
      const party = straightParty(0, 0, { wanderMetres: 7.4 });
      const world = benchWorld({ terrain, features: [target], start: START, target, party, stepMetres });
      const n = Math.min(trials, 4000);
      const at = stops(world, route(leg('bearing', START, [0, -100])), n, seed);
      let sum = 0;
      for (let i = 0; i < at.length; i += 2) sum += at[i]! * at[i]!;
      expect(Math.abs(Math.sqrt(sum / n) / (7.4 * Math.sqrt(5)) - 1)).toBeLessThan(4 / Math.sqrt(2 * n));
    }
  });

  // D.ar1: Var(Σ) = s²[n(1+φ)/(1−φ) − 2φ(1−φⁿ)/(1−φ)²] (Box & Jenkins). The walker's bearing is a habit of the day (.8σ) and an
  // error per bearing taken (.6σ): an equal correlation φ = .64 between any two bearings, Var(Σ) = s²[n + n(n−1)·.64]. With two
  // bearings the two agree
  test('two bearings of a day are correlated as .64', () => {
    const party = straightParty(5, 0);
    const target = spot('target', 'boulder', [1200, 1200], { exists: 1, sweepWidthMetres: 1 });
    // another technique is another leg: it draws its own bearing
    const world = benchWorld({ terrain, features: [target], start: START, target, party });
    const plan = route(leg('bearing', START, [0, -350]), leg('timing', [0, -350], [0, -100]));
    const still = { ...world, navigator: { ...world.navigator, timing: 0 } };
    const at = stops(still, plan, trials, seed);
    let sum = 0;
    for (let i = 0; i < at.length; i += 2) sum += at[i]! * at[i]!;
    const s = (5 * Math.PI) / 180;
    const phi = 0.64;
    const n = 2;
    const variance =
      s * s * ((n * (1 + phi)) / (1 - phi) - (2 * phi * (1 - phi ** n)) / ((1 - phi) * (1 - phi)));
    const sd = 250 * Math.sqrt(variance);
    expect(Math.abs(Math.sqrt(sum / trials) / sd - 1)).toBeLessThan(4 / Math.sqrt(2 * trials) + 0.005);
  });
}
