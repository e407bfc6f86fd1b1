import { describe, expect, test } from 'vitest';
import { lineLength, type Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { Mind } from '../../src/walk/mind.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { benchParty, benchWorld, CERTAIN, leg, line, route, spot } from './plain-ground.ts';

/*
 * Bends of a line as a handrail. That a bend within 2 SD of the count sets the count right is how the trade counts along a path (common
 * practice, no published source); the spread of a count without one, 1.054·d·σ, is derived (D.drhit of the checks with a pace alone).
 */
const TARGET = spot('target', 'boulder', [1900, -1900], { ...CERTAIN, sweepWidthMetres: 1 });

/** A leg along a path from its first point to its last, and one more, so that the first is no last one. */
function task(points: readonly Point[], set: Partial<Skill>) {
  const end = points[points.length - 1]!;
  // the path goes on behind the end of the leg: only the count tells where to stop
  const before = points[points.length - 2]!;
  const beyond: Point = [end[0] + (end[0] - before[0]) * 3, end[1] + (end[1] - before[1]) * 3];
  const world = benchWorld({
    features: [line('path', 'path', [...points.slice(0, -1), beyond], CERTAIN), TARGET],
    start: points[0]!,
    target: TARGET,
    party: benchParty('competent', { handrailLossPerKm: 0, speedShare: 0, ...set }),
  });
  const plan = route(
    leg('handrail', points[0]!, end, {
      line: 'path',
      path: [...points],
      fromAlong: 0,
      toAlong: lineLength(points),
    }),
    leg('bearing', end, [end[0] + 100, end[1] + 100]),
  );
  return { world, legs: planLegs(world, plan), end };
}

/** How far from the end of the leg each party took itself to be there; and how many were at a loss before. */
function walk(points: readonly Point[], set: Partial<Skill>, trials: number) {
  const { world, legs, end } = task(points, set);
  const attempt = new Attempt(world, legs);
  const off: number[] = [];
  let lost = 0;
  attempt.watcher = {
    event(kind, body, _mind, number) {
      if (number === 0 && (kind === 'unsure' || kind === 'turns round')) lost++;
      if (number === 1 && kind === 'leg') off.push(Math.hypot(body.x - end[0], body.y - end[1]));
    },
  };
  for (let trial = 0; trial < trials; trial++) attempt.run(1, trial);
  return { off, lost };
}

const share = (off: readonly number[], metres: number) => off.filter((d) => d <= metres).length / off.length;

describe('a bend sets the count right', () => {
  const trials = 1000;
  const set = { paceShare: 0.1, admitsLostShare: 0 };

  test('without one the count errs by 1.054·d·σ', () => {
    const { off } = walk(
      [
        [0, -900],
        [0, 0],
      ],
      set,
      trials,
    );
    // P(|N| ≤ 1) = .6827: within one SD
    expect(Math.abs(share(off, 1.054 * 900 * 0.1) - 0.6827)).toBeLessThan(4 * Math.sqrt(0.2166 / trials));
  });

  test('with one 300 m before the end it errs by little more than on the last 300 m', () => {
    const { off } = walk(
      [
        [0, -600],
        [0, 0],
        [300, 0],
      ],
      set,
      trials,
    );
    // the bend is looked for every 50 to 60 m and to 2 SD: what is left of it is no more than 60 m. Without it .67 come within 92 m
    expect(share(off, 1.054 * 300 * 0.1 + 60)).toBeGreaterThan(0.87);
  });
});

describe('a bend as the party thinks of it', () => {
  const BEND = 500;
  /** 40°, as on a handrail. */
  const COSINE = 0.766;
  /** 2 SD and the 20 m within which a bend is drawn and noticed. */
  const WITHIN = 2 * 30 + 20;

  /** A party that counts `along` metres on a path that bends east after 500 m, 1 SD of 30 m. */
  function counting(along: number): Mind {
    const { world, legs } = task(
      [
        [0, -BEND],
        [0, 0],
        [900, 0],
      ],
      {},
    );
    const mind = new Mind(world);
    mind.begin(1, 0);
    mind.beginLeg(legs[0]!, 0);
    mind.nearestPlace(0);
    mind.lineAlong = along;
    mind.counted = along;
    mind.belief.fix(0, along - BEND, 30);
    return mind;
  }
  /** Counts on along the mapped line without a change of doubt. */
  function goOn(mind: Mind, metres: number): void {
    mind.lineAlong += metres;
    mind.counted += metres;
  }

  test('underfoot as on the map: nothing is set', () => {
    for (const along of [100, BEND - 1]) {
      const mind = counting(along);
      expect(mind.agrees(0, 1, COSINE)).toBe(true);
      expect([mind.counted, mind.lineAlong]).toEqual([along, along]);
    }
  });

  test.each([
    ['early', BEND - WITHIN + 1, [1, 0]],
    ['late', BEND + WITHIN - 1, [0, 1]],
  ] as const)('a bend that comes %s within 2 SD sets count and belief', (_, along, [east, north]) => {
    const mind = counting(along);
    expect(mind.agrees(east, north, COSINE)).toBe(true);
    expect(mind.counted).toBeCloseTo(BEND, 9);
    expect(mind.lineAlong).toBe(BEND);
    expect([mind.belief.x, mind.belief.y]).toEqual([0, 0]);
    expect(mind.doubtAlong()).toBeLessThan(30);
  });

  test.each([
    ['early', BEND - WITHIN - 1, [1, 0]],
    ['late', BEND + WITHIN + 1, [0, 1]],
  ] as const)('one that comes %s by more is none of this line', (_, along, [east, north]) => {
    const mind = counting(along);
    expect(mind.agrees(east, north, COSINE)).toBe(false);
    expect([mind.counted, mind.lineAlong]).toEqual([along, along]);
  });

  test('a bend to the other side is none of this line', () => {
    expect(counting(BEND).agrees(-1, 0, COSINE)).toBe(false);
  });

  test('a bend that is waited for is missed once 2 SD are walked in all, not at each look anew', () => {
    const mind = counting(BEND + 40);
    expect(mind.agrees(0, 1, COSINE)).toBe(true);
    goOn(mind, WITHIN - 40 - 1);
    expect(mind.agrees(0, 1, COSINE)).toBe(true);
    goOn(mind, 2);
    expect(mind.agrees(0, 1, COSINE)).toBe(false);
  });

  test('met by aiming off the count began at a side: a bend sets nothing', () => {
    const mind = counting(BEND + 40);
    mind.cameByAimOff = true;
    expect(mind.agrees(0, 1, COSINE)).toBe(true);
    expect([mind.counted, mind.lineAlong]).toEqual([BEND + 40, BEND + 40]);
  });
});

describe('a path with corners', () => {
  /** Steps of 150 m, north and east in turn. */
  const stairs: Point[] = Array.from({ length: 9 }, (_, i) => [
    -600 + 150 * Math.floor(i / 2),
    -600 + 150 * Math.ceil(i / 2),
  ]);

  test.each([0, 0.025, 0.05, 0.1])('is taken for no other line, with a pace that errs by %d', (paceShare) => {
    const { off, lost } = walk(stairs, { paceShare, admitsLostShare: 1 }, 500);
    // beyond 2 SD and 20 m are .03 of normal counts at the most
    expect(lost / 500).toBeLessThan(0.03);
    // one step of the stairs at most
    expect(share(off, 75)).toBeGreaterThan(0.95);
  });
});
