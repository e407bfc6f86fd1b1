import { describe, expect, test } from 'vitest';
import { MUTE_STEP } from '../../src/walk/keys.ts';
import { SampledGround } from '../../src/walk/sampled-ground.ts';
import { segmentAt } from '../../src/walk/segment-at.ts';
import { Underfoot } from '../../src/walk/underfoot.ts';
import { within } from '../scenarios/walked.ts';
import { benchParty, benchWorld, CERTAIN, line, spot } from './plain-ground.ts';

/* The line underfoot: geometry (derived); that it is lost at a rate per km is the model's (common practice, no published source). */
const target = spot('target', 'boulder', [900, 900], CERTAIN);
/** 300 m east, 400 m north, 100 m east. */
const bent = (sd: number) =>
  line(
    'path',
    'path',
    [
      [0, 0],
      [300, 0],
      [300, 400],
      [400, 400],
    ],
    { exists: 1, positionMetres: sd },
  );

function underfoot(sd = 0, handrailLossPerKm = 0) {
  const world = benchWorld({
    features: [bent(sd), target],
    start: [0, 0],
    target,
    party: benchParty('competent', { handrailLossPerKm }),
  });
  const ground = new SampledGround(world);
  const u = new Underfoot(world, ground);
  ground.begin(1, 1, 0);
  u.begin();
  return { u, ground };
}

test('the segment at so many metres along, clamped to the first and the last', () => {
  const along = Float64Array.from([0, 300, 700, 800]);
  const at = [-5, 0, 299, 300, 699, 700, 800, 900];
  expect(at.map((metres) => segmentAt(along, metres))).toEqual([0, 0, 0, 1, 1, 2, 2, 2]);
  expect(segmentAt(Float64Array.from([0]), 5)).toBe(0);
});

describe('stepping on', () => {
  test.each([
    ['beside it', 120, 30, 120, 0, 30, 120, 0],
    ['at the corner', 330, -40, 300, 0, 50, 300, 1],
    ['beside the next piece', 290, 200, 300, 200, 10, 500, 1],
    ['before its start', -30, 40, 0, 0, 50, 0, 0],
    ['beyond its end', 430, 440, 400, 400, 50, 800, 2],
  ])('%s', (_, x, y, onX, onY, away, along, segment) => {
    const { u } = underfoot();
    u.put(0, x, y);
    expect([u.x, u.y, u.along, u.segment]).toEqual([onX, onY, along, segment]);
    expect(u.away).toBeCloseTo(away, 9);
  });

  test('where it really lies', () => {
    const { u, ground } = underfoot(40);
    u.put(0, 120, 30);
    const [east, north] = [ground.lineEast[0]!, ground.lineNorth[0]!];
    expect(Math.abs(east) + Math.abs(north)).toBeGreaterThan(1);
    expect(u.y).toBeCloseTo(north, 9);
    expect(u.x).toBeCloseTo(120, 9);
    expect(u.along).toBeCloseTo(120 - east, 9);
  });

  test('it is faced the way that is nearer to the heading', () => {
    const { u } = underfoot();
    u.put(0, 120, 0);
    for (const [east, north, sense] of [
      [1, 0, 1],
      [-1, 0, -1],
      [0.1, -0.99, 1],
      [-0.1, 0.99, -1],
      [0, 1, 1],
    ] as const) {
      u.face(east, north);
      expect(u.sense).toBe(sense);
    }
  });
});

describe('going along', () => {
  test('round the corners and to the end, where it stops', () => {
    const { u } = underfoot();
    u.put(0, 250, 0);
    u.face(1, 0);
    expect(u.advance(100, 1)).toBe(100);
    expect([u.x, u.y, u.along, u.segment, u.ended]).toEqual([300, 50, 350, 1, false]);
    expect(u.advance(400, 1)).toBe(400);
    expect([u.x, u.y, u.segment, u.ended]).toEqual([350, 400, 2, false]);
    expect(u.advance(80, 1)).toBe(50);
    expect([u.x, u.y, u.ended, u.lost]).toEqual([400, 400, true, false]);
  });

  test('and back over several at once to its start', () => {
    const { u } = underfoot();
    u.put(0, 400, 400);
    u.face(-1, 0);
    expect(u.advance(550, 1)).toBe(550);
    expect([u.x, u.y, u.segment, u.ended]).toEqual([250, 0, 0, false]);
    expect(u.advance(250, 1)).toBe(250);
    expect([u.x, u.y, u.ended]).toEqual([0, 0, true]);
    u.turnRound();
    expect([u.sense, u.ended]).toEqual([1, false]);
    expect(u.advance(10, 1)).toBe(10);
    expect(u.x).toBe(10);
  });

  test('stepping on to it again it has neither ended nor been lost; a new trial stands on none', () => {
    const { u } = underfoot();
    u.put(0, 390, 400);
    u.face(1, 0);
    u.advance(20, 1);
    expect(u.ended).toBe(true);
    u.lost = true;
    u.put(0, 390, 400);
    expect([u.ended, u.lost]).toEqual([false, false]);
    u.ended = true;
    u.lost = true;
    u.begin();
    expect([u.line, u.ended, u.lost]).toEqual([-1, false, false]);
  });
});

describe('losing it', () => {
  const trials = 4000;
  /** Share of trials that lose it within 200 m. */
  function lost(perKm: number, fade: number, mute = 0): number {
    const { u, ground } = underfoot(0, perKm);
    let n = 0;
    for (let trial = 0; trial < trials; trial++) {
      ground.begin(1, trial, mute);
      u.begin();
      u.put(0, 0, 0);
      u.face(1, 0);
      u.drawLoss(1, trial, mute);
      for (let k = 0; k < 20; k++) u.advance(10, fade);
      if (u.lost) n++;
    }
    return n / trials;
  }

  test.each([
    [40, 1],
    [40, 3],
    [10, 1],
  ])('a path (.05 per km) × %d, faded × %d: 1 − e^(−λd)', (times, fade) => {
    const share = 1 - Math.exp(-0.05 * times * 0.2 * fade);
    expect(Math.abs(lost(times, fade) - share)).toBeLessThan(within(share, trials, 0));
  });

  test('never at no rate, nor without the errors of the step', () => {
    expect(lost(0, 1)).toBe(0);
    expect(lost(40, 1, MUTE_STEP)).toBe(0);
  });

  test('once', () => {
    const { u } = underfoot(0, 1e6);
    u.put(0, 0, 0);
    u.face(1, 0);
    u.drawLoss(1, 1, 0);
    u.advance(10, 1);
    expect(u.lost).toBe(true);
    u.lost = false;
    u.advance(10, 1);
    expect(u.lost).toBe(false);
  });
});
