import { describe, expect, test } from 'vitest';
import { Errors } from '../../src/walk/errors.ts';
import { MUTE_DAY, MUTE_LEG } from '../../src/walk/keys.ts';
import type { Navigator, World } from '../../src/walk/world.ts';
import { within } from '../scenarios/walked.ts';
import { benchParty, benchWorld, CERTAIN, spot } from './plain-ground.ts';

/*
 * What a party gets wrong, against the moments that its table states (common practice, no published source): tolerances are 4 standard
 * errors, √(2/n) of a variance and 1/√n of a mean in SD.
 */
const TRIALS = 4000;
const MEAN = 4 / Math.sqrt(TRIALS);
const VARIANCE = 4 * Math.sqrt(2 / TRIALS);
const target = spot('target', 'boulder', [900, 900], CERTAIN);
const bench = benchWorld({ features: [target], start: [0, 0], target, party: benchParty('competent') });
const DECLINATION = 0.06;

function worldOf(set: Partial<Navigator>, more: Partial<World> = {}): World {
  return { ...bench, declinationAngle: DECLINATION, ...more, navigator: { ...bench.navigator, ...set } };
}

/** One number of each of many days. */
function days(world: World, of: (e: Errors, trial: number) => number, mute = 0): number[] {
  const errors = new Errors(world);
  return Array.from({ length: TRIALS }, (_, trial) => {
    errors.begin(1, trial, mute);
    return of(errors, trial);
  });
}
const mean = (x: readonly number[]) => x.reduce((a, b) => a + b, 0) / x.length;
const meanProduct = (x: readonly number[], y: readonly number[]) => mean(x.map((a, i) => a * y[i]!));
const shareWhere = (x: readonly number[], is: (a: number) => boolean) => x.filter(is).length / x.length;

function expectNormal(x: readonly number[], middle: number, sd: number): void {
  expect(Math.abs(mean(x) - middle) / sd).toBeLessThan(MEAN);
  const off = x.map((a) => a - middle);
  expect(Math.abs(meanProduct(off, off) / (sd * sd) - 1)).toBeLessThan(VARIANCE);
}

describe('bearings', () => {
  const SD = 0.05;
  const world = worldOf({ bearing: SD });
  const bias = (key: number, number: number) => (e: Errors) => {
    e.takeBearing(key, number, 1, false);
    return e.bias;
  };

  test('habit of the day and error of each bearing come to the SD, and two of a day go together by .64', () => {
    const first = days(world, bias(0, 0));
    expectNormal(first, 0, SD);
    for (const other of [days(world, bias(0, 1)), days(world, bias(1, 0))]) {
      expectNormal(other, 0, SD);
      expect(Math.abs(meanProduct(first, other) / (SD * SD) - 0.64)).toBeLessThan(VARIANCE);
    }
  });

  test('with the day left out .6 of it is left, with the leg left out .8', () => {
    expectNormal(days(world, bias(0, 0), MUTE_DAY), 0, 0.6 * SD);
    expectNormal(days(world, bias(0, 0), MUTE_LEG), 0, 0.8 * SD);
  });

  test('some set it the wrong way round, some off by 10° to either side; with something in view nobody', () => {
    const slips = worldOf({ reverse: 0.1, slip: 0.3 });
    const meant = (sighted: boolean) => days(slips, (e) => e.takeBearing(0, 0, 1, sighted) - 1);
    const off = meant(false);
    const is = (angle: number) => (a: number) => Math.abs(a - angle) < 1e-9;
    const ten = Math.PI / 18;
    for (const [angle, share] of [
      [0, 0.9 * 0.7],
      [Math.PI, 0.1 * 0.7],
      [ten, 0.9 * 0.15],
      [-ten, 0.9 * 0.15],
      [Math.PI + ten, 0.1 * 0.15],
      [Math.PI - ten, 0.1 * 0.15],
    ] as const)
      expect(Math.abs(shareWhere(off, is(angle)) - share)).toBeLessThan(within(share, TRIALS, 0));
    expect(shareWhere(meant(true), is(0))).toBe(1);
    expect(
      shareWhere(
        days(slips, (e) => e.takeBearing(0, 0, 1, false), MUTE_LEG),
        is(1),
      ),
    ).toBe(1);
  });

  test('a declination left out is off by it, one reversed by twice as much, half of those each, all day long', () => {
    const wrong = worldOf({ declination: 0.4 });
    const off = (e: Errors) => e.takeBearing(0, 0, 0, true);
    for (const [angle, share] of [
      [0, 0.6],
      [DECLINATION, 0.2],
      [2 * DECLINATION, 0.2],
    ] as const) {
      const is = (a: number) => Math.abs(a - angle) < 1e-9;
      expect(Math.abs(shareWhere(days(wrong, off), is) - share)).toBeLessThan(within(share, TRIALS, 0));
    }
    expect(days(wrong, (e) => off(e) - e.takeBearing(3, 2, 0, true)).every((d) => d === 0)).toBe(true);
    expect(days(wrong, off, MUTE_DAY).every((d) => d === 0)).toBe(true);
  });
});

describe('counting', () => {
  const PACE = 0.04;
  const world = worldOf({ pace: PACE });
  const scale =
    (key: number, felt = 1) =>
    (e: Errors) => {
      e.beginLeg(key, 500);
      return e.metresPerCount(felt) - 1;
    };

  test('a scale of the day and a third of it per leg', () => {
    const first = days(world, scale(0));
    // √(1 + 1/9) = 1.054
    expectNormal(first, 0, PACE * Math.sqrt(10 / 9));
    expect(Math.abs(meanProduct(first, days(world, scale(1))) / (PACE * PACE) - 1)).toBeLessThan(
      VARIANCE * 1.2,
    );
    expectNormal(days(world, scale(0, 2)), 0, 2 * PACE * Math.sqrt(10 / 9));
    expectNormal(days(world, scale(0), MUTE_DAY), 0, PACE / 3);
    expectNormal(days(world, scale(0), MUTE_LEG), 0, PACE);
  });

  test('nobody counts more than five metres for one walked', () => {
    const least = Math.min(...days(worldOf({ pace: 1 }), scale(0)));
    expect(least).toBeCloseTo(-0.8, 12);
  });

  test('slips in it by one hundred metres either way, by 1 − e^(−p·d), on legs of 100 m and more', () => {
    const slips = worldOf({ miscountPerMetre: 0.00008 });
    const slip = (metres: number) => (e: Errors) => {
      e.beginLeg(0, metres);
      return e.miscount;
    };
    const likely = 1 - Math.exp(-0.00008 * 2000);
    const all = days(slips, slip(2000));
    for (const by of [-100, 100])
      expect(Math.abs(shareWhere(all, (m) => m === by) - likely / 2)).toBeLessThan(
        within(likely / 2, TRIALS, 0),
      );
    expect(shareWhere(all, (m) => m === 0 || Math.abs(m) === 100)).toBe(1);
    const often = worldOf({ miscountPerMetre: 1 });
    expect(shareWhere(days(often, slip(99)), (m) => m === 0)).toBe(1);
    expect(shareWhere(days(often, slip(100)), (m) => m !== 0)).toBe(1);
    expect(shareWhere(days(often, slip(100), MUTE_LEG), (m) => m === 0)).toBe(1);
  });
});

describe('the clock', () => {
  const TIMING = 0.12;
  const timed = (e: Errors) => {
    e.beginLeg(0, 500);
    e.takeBearing(0, 0, 0, false);
    return e.metresPerTimed();
  };

  test('a speed misjudged by day and leg comes to the SD, about the bias', () => {
    const world = worldOf({ timing: TIMING, timingBias: -0.1 });
    expectNormal(days(world, timed), 0.9, TIMING);
    expectNormal(days(world, timed, MUTE_DAY), 0.9, 0.943 * TIMING);
    expectNormal(days(world, timed, MUTE_LEG), 0.9, 0.333 * TIMING);
  });

  test('a headwind shortens what is walked by the clock, a wind from behind does not', () => {
    const still = worldOf({ timing: 0, timingBias: 0 });
    const north = { metresPerSecond: 20, fromDegrees: 0 };
    const ahead = days({ ...still, wind: north }, timed);
    // 5 to 30 % of the model, the most in a storm
    expect(ahead.every((m) => Math.abs(m - 0.7) < 1e-9)).toBe(true);
    expect(days({ ...still, wind: { ...north, fromDegrees: 180 } }, timed).every((m) => m === 1)).toBe(true);
    expect(days(still, timed).every((m) => m === 1)).toBe(true);
  });

  test('nobody walks less than a fifth', () => {
    expect(Math.min(...days(worldOf({ timing: 2 }), timed))).toBe(0.2);
  });
});

test('the speed of the day, no slower than half the usual', () => {
  const speed = (world: World, mute = 0) => days(world, (e) => 1 / e.slow, mute);
  expectNormal(speed(worldOf({ speedSd: 0.1 })), 1, 0.1);
  expect(Math.min(...speed(worldOf({ speedSd: 1 })))).toBeCloseTo(0.5, 12);
  expect(speed(worldOf({ speedSd: 0.1 }), MUTE_DAY).every((s) => s === 1)).toBe(true);
});

test('drift is N(1, ½) and contouring N(0, 1) per leg; none without errors of the leg', () => {
  const of = (what: 'driftZ' | 'contourZ') => (e: Errors) => {
    e.beginLeg(0, 500);
    return e[what];
  };
  expectNormal(days(bench, of('driftZ')), 1, 0.5);
  expectNormal(days(bench, of('contourZ')), 0, 1);
  expect(days(bench, of('driftZ'), MUTE_LEG).every((d) => d === 0)).toBe(true);
  expect(days(bench, of('contourZ'), MUTE_LEG).every((d) => d === 0)).toBe(true);
});

test('a new day knows nothing of the last leg', () => {
  const errors = new Errors(worldOf({ miscountPerMetre: 1, bearing: 0.1, pace: 0.1 }));
  errors.begin(1, 1, 0);
  errors.beginLeg(0, 500);
  errors.takeBearing(0, 0, 0, false);
  errors.begin(1, 2, 0);
  expect([errors.miscount, errors.bias, errors.driftZ, errors.contourZ, errors.metresPerCount(1)]).toEqual([
    0, 0, 1, 0, 1,
  ]);
});
