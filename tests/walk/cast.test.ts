import { describe, expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { within } from '../scenarios/walked.ts';
import { benchParty, benchWorld, leg, line, route, spot } from './plain-ground.ts';

/*
 * Casting about for a line that should be here: square to its run, to one side and back over to the other, 2 SD of where it is drawn
 * and of where the party stands across it, 80 m at the most. Common practice, no published source; how often a line that is drawn with an SD
 * of s lies no farther than d from its place is 2Φ(d/s) − 1.
 */
const START: Point = [0, -600];
const END: Point = [0, 0];
const TARGET = spot('target', 'boulder', [1900, -1900], {
  exists: 1,
  positionMetres: 0,
  sweepWidthMetres: 1,
});
/** A path is noticed from 30 m, the table of the trade. */
const NOTICED = 30;
/** Nothing errs but the map. */
const SURE: Partial<Skill> = {
  bearingDegrees: 0,
  wanderMetres: 0,
  paceShare: 0,
  handrailLossPerKm: 0,
  speedShare: 0,
  admitsLostShare: 0,
};

interface AtEnd {
  readonly onLine: boolean;
  readonly off: number;
  readonly metres: number;
}

/** Follows a path of 600 m that lies elsewhere than drawn, or not at all: where each party is at the end of it. */
function walk(sd: number, exists: number, trials: number): AtEnd[] {
  const world = benchWorld({
    // the path comes from far behind and goes on far beyond: its ends are of no account
    features: [
      line(
        'path',
        'path',
        [
          [0, -1800],
          [0, 1800],
        ],
        { exists, positionMetres: sd },
      ),
      TARGET,
    ],
    start: START,
    target: TARGET,
    party: benchParty('competent', SURE),
  });
  const plan = route(
    leg('handrail', START, END, { line: 'path', fromAlong: 1200, toAlong: 1800 }),
    leg('bearing', END, [100, 100]),
  );
  const attempt = new Attempt(world, planLegs(world, plan));
  const ends: AtEnd[] = [];
  attempt.watcher = {
    event(kind, body, _mind, number) {
      if (kind === 'leg' && number === 1)
        ends.push({ onLine: body.onLine >= 0, off: body.y - END[1], metres: body.walked });
    },
  };
  for (let trial = 0; trial < trials; trial++) attempt.run(1, trial);
  expect(ends.length).toBe(trials);
  return ends;
}

const shareOn = (ends: readonly AtEnd[]) => ends.filter((e) => e.onLine).length / ends.length;

describe('a line that is not where it is drawn', () => {
  const trials = 1000;
  test.each([
    // 4 SD either side, 60 m: all; 80 m of 40, of 60 and of 100 m
    [15, 0.9999366575],
    [40, 0.9544997361],
    [60, 0.8175775605],
    [100, 0.5762892028],
  ])('drawn with an SD of %d m is found by all who cast far enough', (sd, found) => {
    const ends = walk(sd, 1, trials);
    expect(Math.abs(shareOn(ends) - found)).toBeLessThan(within(found, trials, 0.005));
  });

  test('who steps on to it without a cast loses no way; who casts goes on with the count of before', () => {
    for (const e of walk(40, 1, 500).filter((e) => e.onLine)) {
      // no farther to the side than a cast goes, twice over, and the way along
      expect(e.metres).toBeLessThan(600 + 3 * 80 + NOTICED);
      // where it steps on to the line it stands abreast of where it stood: the leg ends abreast of its end
      expect(Math.abs(e.off)).toBeLessThan(1);
    }
  });
});

test('a line that is not there costs one cast, out, over and back to the middle, and no more', () => {
  // 80 m for a line drawn with an SD of 40 m; 2 × 6 m and 2 × 6 m for one of 6 m
  for (const [sd, out] of [
    [40, 80],
    [6, 24],
  ] as const) {
    for (const e of walk(sd, 0, 20)) {
      expect(e.onLine).toBe(false);
      expect(Math.abs(e.metres - 600 - 4 * out)).toBeLessThan(2);
      expect(Math.abs(e.off)).toBeLessThan(1);
    }
  }
});

test('a cast goes to either side first, one as often as the other', () => {
  // on a line 2 SD to one side only those lose no way over to the other side who began on the right one
  const world = benchWorld({
    features: [
      line(
        'path',
        'path',
        [
          [0, -1800],
          [0, 1800],
        ],
        { exists: 0, positionMetres: 40 },
      ),
      TARGET,
    ],
    start: START,
    target: TARGET,
    party: benchParty('competent', SURE),
  });
  const plan = route(
    leg('handrail', START, END, { line: 'path', fromAlong: 1200, toAlong: 1800 }),
    leg('bearing', END, [100, 100]),
  );
  const attempt = new Attempt(world, planLegs(world, plan));
  const trials = 1000;
  let first = 0;
  let east = 0;
  attempt.watcher = {
    event(kind) {
      if (kind === 'start') first = 0;
    },
    step(body) {
      if (first === 0 && Math.abs(body.x) > 40) {
        first = Math.sign(body.x);
        if (first > 0) east++;
      }
    },
  };
  for (let trial = 0; trial < trials; trial++) attempt.run(1, trial);
  expect(Math.abs(east / trials - 0.5)).toBeLessThan(within(0.5, trials, 0));
});
