import { describe, expect, test } from 'vitest';
import { countOf } from '../../src/math/quantile.ts';
import type { AttemptResult } from '../../src/walk/attempt.ts';
import {
  addTally,
  CLEAN_HIT,
  countAttempt,
  FALSE_FIND,
  FOUND_BY_SEARCH,
  hitsOf,
  KEPT_ENDS,
  LATE,
  LOST,
  mergeTallies,
  NEAR_MISS,
  newTally,
  outcomeOf,
  TURNED_BACK,
  trimTally,
} from '../../src/walk/tally.ts';
import { BENCH_LIMITS, benchParty, benchWorld, CERTAIN, spot } from './plain-ground.ts';

/* Outcomes by the table of the model: exactly one, precedence from the top. Common practice, no published source. */
const target = spot('target', 'boulder', [0, 500], { ...CERTAIN, sweepWidthMetres: 10 });
const world = benchWorld({
  features: [target],
  start: [0, 0],
  target,
  party: benchParty('competent'),
  limits: { ...BENCH_LIMITS, minutes: 60 },
});

const NOTHING: AttemptResult = {
  found: false,
  falseFind: false,
  wavered: false,
  regained: false,
  astray: false,
  outOfTime: false,
  hazard: false,
  seconds: 600,
  metres: 700.4,
  nearest: 300,
  x: 1,
  y: 2,
  lostOnLeg: 1,
};

describe('one outcome, precedence from the top', () => {
  test.each([
    [{ found: true }, CLEAN_HIT],
    [{ found: true, seconds: 3600 }, CLEAN_HIT],
    [{ found: true, wavered: true }, FOUND_BY_SEARCH],
    [{ found: true, wavered: true, seconds: 3601 }, LATE],
    [{ found: true, seconds: 3601 }, LATE],
    [{ falseFind: true, astray: true, regained: true }, FALSE_FIND],
    [{ astray: true, regained: true, nearest: 1 }, LOST],
    [{ regained: true, nearest: 1 }, TURNED_BACK],
    [{ nearest: 50 }, NEAR_MISS],
    [{ nearest: 51 }, LOST],
  ])('%o', (what, outcome) => {
    expect(outcomeOf(world, { ...NOTHING, ...what })).toBe(outcome);
  });
});

function counted(from: number, results: readonly Partial<AttemptResult>[]) {
  const tally = newTally(3, from, from + results.length);
  results.forEach((r, i) => {
    countAttempt(tally, world, from + i, { ...NOTHING, ...r });
  });
  return tally;
}

test('every attempt is counted once, hits and losses apart', () => {
  const t = counted(0, [
    { found: true, seconds: 100.6 },
    { found: true, wavered: true, hazard: true },
    { found: true, seconds: 70_000 },
    { lostOnLeg: 2, hazard: true, x: 7, y: 8 },
  ]);
  expect([...t.outcomes]).toEqual([1, 1, 1, 0, 1, 0, 0]);
  expect(hitsOf(t)).toBe(2);
  expect(t.hazard).toBe(2);
  expect(t.metres).toBe(4 * 700);
  // a late find is none, and so was lost on some leg
  expect([...t.lostOnLeg]).toEqual([0, 1, 1]);
  expect([...t.outcomeOf]).toEqual([CLEAN_HIT, FOUND_BY_SEARCH, LATE, LOST]);
  expect([...t.secondsOf]).toEqual([101, 600, 65_535, 600]);
  expect(t.ends).toEqual([1, 2, CLEAN_HIT, 1, 2, FOUND_BY_SEARCH, 1, 2, LATE, 7, 8, LOST]);
  expect(countOf(t.allSeconds)).toBe(4);
  expect(countOf(t.foundSeconds)).toBe(2);
});

test('only the first ends are kept', () => {
  const t = counted(KEPT_ENDS - 1, [{}, {}, {}]);
  expect(t.ends.length).toBe(3);
});

test('blocks add up to the whole in any order', () => {
  const results = Array.from({ length: 12 }, (_, i) => ({
    found: i % 3 === 0,
    wavered: i % 2 === 0,
    hazard: i % 4 === 1,
    lostOnLeg: i % 3,
    seconds: 100 + 50 * i,
    x: i,
  }));
  const whole = trimTally(counted(0, results));
  for (const order of [
    [0, 1, 2],
    [2, 0, 1],
  ]) {
    const total = newTally(3, 0, 12);
    for (const b of order) addTally(total, trimTally(counted(4 * b, results.slice(4 * b, 4 * b + 4))));
    expect(trimTally(total)).toEqual(whole);
    expect(mergeTallies(order.map((b) => counted(4 * b, results.slice(4 * b, 4 * b + 4))))).toEqual(whole);
  }
});

test('blocks of a total that does not begin with the first attempt keep their places', () => {
  const total = newTally(3, 10, 14);
  addTally(total, counted(12, [{ found: true, seconds: 300 }, { seconds: 400 }]));
  addTally(total, counted(10, [{ seconds: 100 }, { found: true, seconds: 200 }]));
  expect([...total.secondsOf]).toEqual([100, 200, 300, 400]);
  expect([...total.outcomeOf]).toEqual([LOST, CLEAN_HIT, CLEAN_HIT, LOST]);
  // east, north and outcome of each end, in order of the attempts
  expect(total.ends).toHaveLength(12);
  expect(total.ends.filter((_, i) => i % 3 === 2)).toEqual([LOST, CLEAN_HIT, CLEAN_HIT, LOST]);
});
