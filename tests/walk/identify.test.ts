import { describe, expect, test } from 'vitest';
import type { Feature } from '../../src/features/feature.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import { Belief } from '../../src/walk/belief.ts';
import { acceptance, crossingOf, newCrossing, type Verdict, whichLine } from '../../src/walk/identify.ts';
import { STREAM, WALL, WAY, type World } from '../../src/walk/world.ts';
import { benchParty, benchWorld, CERTAIN, line, spot } from './plain-ground.ts';

/*
 * Which line was met: geometry of the crossing (derived), and the weighing by distance, angle and chance to exist against what no map
 * shows (the rule is the model's, common practice, no published source).
 */
const target = spot('target', 'boulder', [900, 900], CERTAIN);
const worldOf = (...features: Feature[]): World =>
  benchWorld({ features: [...features, target], start: [0, 0], target, party: benchParty('competent') });
const across = (id: string, north: number, kind: FeatureKind = 'path', doubt = {}): Feature =>
  line(
    id,
    kind,
    [
      [-900, north],
      [900, north],
    ],
    { ...CERTAIN, ...doubt },
  );

describe('where a track crosses a line', () => {
  const cross = (points: Point[], at: Point, u: Point, reach = 1000) => {
    const c = newCrossing();
    crossingOf(worldOf(line('path', 'path', points, CERTAIN)), 0, at[0], at[1], u[0], u[1], reach, c);
    return c;
  };

  test('ahead, with the place, the metres along and the direction of the line', () => {
    const c = cross(
      [
        [-300, 200],
        [300, 200],
      ],
      [10, 20],
      [0.6, 0.8],
    );
    expect(c.found).toBe(true);
    expect(c.ahead).toBeCloseTo(225, 9);
    expect([c.x, c.y]).toEqual([145, 200]);
    expect(c.along).toBeCloseTo(445, 9);
    expect([c.dx, c.dy]).toEqual([1, 0]);
  });

  test('behind counts as well, and of two the nearer one', () => {
    // out at 300 m, back at 100 m behind
    const bent: Point[] = [
      [-500, 300],
      [500, 300],
      [500, -100],
      [-500, -100],
    ];
    const c = cross(bent, [0, 0], [0, 1]);
    expect(c.ahead).toBeCloseTo(-100, 9);
    expect(c.along).toBeCloseTo(1000 + 400 + 500, 9);
    expect([c.dx, c.dy]).toEqual([-1, 0]);
    expect(cross(bent, [0, 150], [0, 1]).ahead).toBeCloseTo(150, 9);
  });

  test('beyond reach, beside the track or along it there is none', () => {
    const level: Point[] = [
      [-300, 200],
      [300, 200],
    ];
    expect(cross(level, [0, 0], [0, 1], 201).found).toBe(true);
    expect(cross(level, [0, 0], [0, 1], 199).found).toBe(false);
    expect(cross(level, [310, 0], [0, 1]).found).toBe(false);
    expect(cross(level, [-310, 0], [0, 1]).found).toBe(false);
    expect(cross(level, [0, 0], [1, 0]).found).toBe(false);
    expect(cross(level, [0, 0], [-1, 0]).found).toBe(false);
  });

  test('a line of many pieces is crossed where its one piece is, whichever', () => {
    const many: Point[] = Array.from({ length: 41 }, (_, i) => [-800 + 40 * i, 300 + (i % 2)]);
    for (const x of [-790, -333, -5, 250, 799]) {
      const c = cross(many, [x, 0], [0, 1]);
      expect(c.found).toBe(true);
      expect(c.x).toBeCloseTo(x, 9);
      expect(Math.abs(c.y - 300.5)).toBeLessThanOrEqual(0.5);
      expect(c.ahead).toBeCloseTo(c.y, 9);
      expect(Math.abs(c.along - (x + 800))).toBeLessThan(1);
    }
  });
});

describe('which line it is taken for', () => {
  interface Met {
    readonly at?: number;
    readonly sd?: number;
    readonly east?: number;
    readonly north?: number;
    readonly family?: number;
    readonly past?: number;
    readonly wanted?: number;
  }
  /** A party that believes it has come `at` metres north, and meets a line there. */
  function meets(world: World, met: Met): Verdict {
    const { at = 500, sd = 20, east = 1, north = 0, family = WAY, past = 0, wanted = -1 } = met;
    const belief = new Belief(world.navigator);
    belief.fix(0, at, sd);
    const verdict: Verdict = { line: 7, clash: 0, crossing: newCrossing() };
    const all = world.lines.map((l) => l.index);
    whichLine(world, all, family, belief, 0, 1, east, north, past, wanted, newCrossing(), verdict);
    return verdict;
  }

  test('of two alike the nearer one, with where it is crossed', () => {
    const world = worldOf(across('a', 420), across('b', 560));
    expect(meets(world, { at: 500 }).line).toBe(1);
    expect(meets(world, { at: 480 }).line).toBe(0);
    const v = meets(world, { at: 500 });
    expect([v.crossing.x, v.crossing.y, v.crossing.ahead]).toEqual([0, 560, 60]);
    expect(v.crossing.found).toBe(true);
  });

  test('the place of the crossing counts, not that of the step which went past it', () => {
    const world = worldOf(across('a', 420), across('b', 560));
    expect(meets(world, { at: 500, past: 25 }).line).toBe(0);
  });

  test('the surer line of two as far off; the one that runs as the line met does', () => {
    expect(meets(worldOf(across('a', 450, 'path', { exists: 0.3 }), across('b', 550)), {}).line).toBe(1);
    expect(meets(worldOf(across('a', 450), across('b', 550, 'path', { exists: 0.3 })), {}).line).toBe(0);
    const slant = line(
      's',
      'path',
      [
        [-400, 50],
        [400, 850],
      ],
      CERTAIN,
    );
    const world = worldOf(across('a', 470), slant);
    expect(meets(world, { at: 455, east: Math.SQRT1_2, north: Math.SQRT1_2 }).line).toBe(1);
    expect(meets(world, { at: 455, east: -Math.SQRT1_2, north: -Math.SQRT1_2 }).line).toBe(1);
    expect(meets(world, { at: 455 }).line).toBe(0);
  });

  test('only lines of the family met', () => {
    const world = worldOf(across('wall', 500, 'wall'), across('path', 600));
    expect(meets(world, { family: WAY, sd: 40 }).line).toBe(1);
    expect(meets(world, { family: WALL }).line).toBe(0);
    expect(meets(world, { family: STREAM }).line).toBe(-1);
  });

  test('the clash of the line wanted is in SD of count, map and eye', () => {
    const world = worldOf(across('a', 480), across('b', 620, 'path', { positionMetres: 12 }));
    const v = meets(world, { wanted: 1 });
    expect(v.line).toBe(0);
    expect(v.clash).toBeCloseTo(120 / Math.sqrt(20 * 20 + 25 + 12 * 12), 9);
    expect(meets(world, { wanted: -1 }).clash).toBe(Number.POSITIVE_INFINITY);
  });

  test('where streams that no map shows are many a far one is not believed', () => {
    const world = worldOf(across('beck', 575, 'stream'));
    // L = exp(−½z²)/σ against λ·√(2π), z = 75/√(20² + 25) = 3.64: equal at λ = 2.6e-5 a metre
    const dense = (per100: number) => ({ ...world, rivuletsPer100: per100, rivuletsAlike: 0.5 });
    expect(meets(dense(0.004), { family: STREAM }).line).toBe(0);
    expect(meets(dense(0.007), { family: STREAM }).line).toBe(-1);
  });

  test('so where trods are many, for a path', () => {
    const world = worldOf(across('path', 575));
    // λ = density × 200 m × 2/π
    expect(meets({ ...world, trodsPerM2: 1e-7 }, {}).line).toBe(0);
    expect(meets({ ...world, trodsPerM2: 3e-7 }, {}).line).toBe(-1);
  });
});

test('a lookalike is accepted by a^((z/2)²): the share of the skill at 2 SD, everybody at none', () => {
  for (const a of [0.6, 0.25, 0.08]) {
    expect(acceptance(a, 0)).toBe(1);
    expect(acceptance(a, 2)).toBeCloseTo(a, 12);
    expect(acceptance(a, 4)).toBeCloseTo(a ** 4, 12);
    expect(acceptance(a, 1)).toBeCloseTo(a ** 0.25, 12);
  }
  expect(acceptance(0, 1)).toBe(0);
});
