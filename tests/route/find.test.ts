import { describe, expect, it } from 'vitest';
import { distance, distanceToSegment, lineLength, type Point } from '../../src/math/plane.ts';
import { findPlans, findRoutes } from '../../src/route/find.ts';
import type { Leg } from '../../src/route/leg.ts';
import { isPathBlocked, planningOf } from '../../src/route/planning.ts';
import { area, CLEAR, errand, line, moor, point } from './moor.ts';

// A track leads round to a ruin near the spring; a beck runs past the spring; between start and spring lies open ground.
const track = line('track', 'track', [300, 300], [300, 2200], [2000, 2400], [2700, 2400]);
const beck = line('beck', 'stream', [2300, 2900], [2200, 2000], [2300, 1200], [2300, 300]);
const wall = line('dyke', 'wall', [1000, 1900], [2600, 1900]);
const ruin = point('ruin', 'ruin', [2020, 2180]);
const spring = point('spring', 'spring', [2200, 2000]);
const mist = { ...CLEAR, visibility: { below: 150, above: 150, cloudBase: null } };
const slope = (_e: number, n: number) => 300 + 0.03 * n;
const ground = moor([track, beck, wall, ruin, spring], { height: slope });
const task = errand([320, 300], spring, 'novice', mist);
const plans = findPlans(task, ground, { count: 12 });

const uses = (wanted: (legs: readonly Leg[]) => boolean) => plans.some((p) => wanted(p.legs));
const says = (technique: Leg['technique'], id?: string) => (legs: readonly Leg[]) =>
  legs.some((l) => l.technique === technique && (id === undefined || l.line === id || l.toFeature === id));

describe('what a navigator would draw is found', () => {
  it('straight, by the track to the ruin and short from there, off the beck, along the wall', () => {
    expect(uses((legs) => legs.length === 1 && legs[0]!.technique === 'bearing')).toBe(true);
    expect(uses((legs) => says('handrail', 'track')(legs) && legs.some((l) => l.toFeature === 'ruin'))).toBe(
      true,
    );
    expect(uses((legs) => says('aim-off', 'beck')(legs) && legs.at(-1)!.line === 'beck')).toBe(true);
    expect(uses(says('handrail', 'dyke'))).toBe(true);
  });

  it('legs are chained from the start to the target, the last one fine, ids and names apart', () => {
    const routes = findRoutes(task, ground, { count: 12 });
    expect(new Set(routes.map((r) => r.id)).size).toBe(routes.length);
    expect(new Set(routes.map((r) => r.name)).size).toBe(routes.length);
    for (const { legs } of routes) {
      expect(legs[0]!.from).toEqual([320, 300]);
      legs.forEach((leg, i) => {
        expect(leg.path[0]).toEqual(leg.from);
        expect(leg.path.at(-1)).toEqual(leg.to);
        if (i > 0) expect(leg.from).toEqual(legs[i - 1]!.to);
        expect(leg.fine).toBe(i === legs.length - 1);
      });
      expect(legs.at(-1)!.toFeature).toBe('spring');
      expect(distance(legs.at(-1)!.to, [2200, 2000])).toBeLessThan(20);
    }
  });

  it('the same again, however the features are ordered in the count asked for', () => {
    expect(findPlans(task, ground, { count: 12 })).toEqual(plans);
    expect(findPlans(task, ground, { count: 1 })[0]!.legs).toEqual(plans[0]!.legs);
  });

  it('no two of them are the same line with the same endgame', () => {
    const keys = plans.map((p) =>
      p.legs
        .map(
          (l) =>
            `${l.technique} ${l.line ?? ''} ${l.side ?? ''} ${l.to.map((v) => Math.round(v / 60)).join()}`,
        )
        .join('|'),
    );
    expect(new Set(keys).size).toBe(keys.length);
  });

  it('a contour is found where the slope serves, sight where the target is in view', () => {
    const steep = moor([point('cairn', 'cairn', [600, 1500]), point('well', 'well', [900, 1500])], {
      height: (_e, n) => 0.2 * n,
    });
    const onSlope = findPlans(
      errand([300, 1500], point('well', 'well', [900, 1500]), 'novice', mist),
      steep,
      { count: 6 },
    );
    expect(onSlope.some((p) => says('contour')(p.legs))).toBe(true);
    const tower = point('hut', 'building', [1200, 1500], { rangeMetres: 2000, contrast: 1 });
    const seen = findPlans(errand([300, 1500], tower), moor([tower]), { count: 4 });
    expect(seen[0]!.legs.map((l) => l.technique)).toEqual(['sight']);
  });
});

describe('barriers and hazards', () => {
  const lake: Point[] = [
    [1000, 900],
    [1500, 900],
    [1500, 2100],
    [1000, 2100],
  ];
  const water = area('mere', 'lake', ...lake);
  const at: Point = [2200, 1500];
  const well = point('well', 'well', at);

  it('large water is gone round, by open legs that never touch it', () => {
    const wet = moor([water, well]);
    const there = errand([300, 1500], well);
    const found = findPlans(there, wet, { count: 6 });
    const planning = planningOf(wet, there);
    expect(found.length).toBeGreaterThan(0);
    for (const { legs } of found)
      for (const leg of legs) expect(isPathBlocked(planning, leg.path)).toBe(false);
  });

  it('a pond on the way is boxed', () => {
    const pond = area('pond', 'lake', [1150, 1450], [1230, 1450], [1230, 1560], [1150, 1560]);
    const found = findPlans(errand([300, 1500], well), moor([pond, well]), { count: 6 });
    const boxed = found.find((p) => says('box')(p.legs));
    expect(boxed?.legs.map((l) => l.technique)).toEqual(['bearing', 'box', 'bearing']);
    // Only the pond is boxed, not the whole way.
    expect(lineLength(boxed!.legs[1]!.path)).toBeLessThan(500);
  });

  it('a cliff is kept off by its buffer', () => {
    const edge: Point[] = [
      [1200, 1000],
      [1200, 2000],
    ];
    const cliff = line('edge', 'cliff', ...edge);
    const found = findPlans(errand([300, 1500], well), moor([cliff, well]), { count: 6 });
    expect(found.length).toBeGreaterThan(0);
    for (const { legs } of found) {
      for (const leg of legs) {
        for (const p of leg.path) expect(distanceToSegment(p, edge[0]!, edge[1]!)).toBeGreaterThan(10);
      }
    }
  });
});

describe('what a line gives away', () => {
  const well = point('well', 'well', [2600, 1500]);
  const lone = errand([300, 1100], well, 'competent', mist);
  // common practice, no source: whoever follows a wall or the edge of a wood knows when it stops
  const edge = line('edge', 'forest-edge', [420, 1130], [2350, 1560]);

  it('the end of a line that nothing marks is a place to set out from', () => {
    const found = findPlans(lone, moor([edge, well]), { count: 12 });
    const ways = found.map(({ legs }) => legs.map((l) => [l.technique, l.line, l.to].flat()));
    expect(ways).toContainEqual([
      ['bearing', undefined, 420, 1130],
      ['handrail', 'edge', 2350, 1560],
      ['bearing', undefined, 2600, 1500],
    ]);
  });
});

describe('odd tasks get an answer or one message', () => {
  const well = point('well', 'well', [2200, 1500]);

  it('no feature at all: straight', () => {
    const found = findPlans(errand([300, 1500], well), moor([]), { count: 6 });
    expect(found.map((p) => p.legs.map((l) => l.technique))).toContainEqual(['bearing']);
  });

  it('a target far from every line and mark: straight, and from where a line leaves off', () => {
    const far = line('beck', 'stream', [100, 2900], [2900, 2900]);
    const path = line('path', 'path', [300, 1500], [300, 700]);
    const found = findPlans(errand([300, 1500], well), moor([far, path, well]), { count: 6 });
    expect(found.map((p) => p.legs.map((l) => l.technique))).toContainEqual(['bearing']);
    for (const { legs } of found) expect(legs.at(-1)!.toFeature).toBe('well');
  });

  it('nobody walks past the target to come back to it, but along a line to a sure place beyond', () => {
    const beck = line('beck', 'stream', [300, 1500], [2200, 1500], [2900, 1500]);
    const side = line('side', 'stream', [2500, 2900], [2500, 1500]);
    const found = findPlans(errand([320, 1500], well), moor([beck, side, well]), { count: 12 });
    const passing = found.flatMap(({ legs }) =>
      legs
        .slice(0, -1)
        .filter((leg) =>
          leg.path.some((p, i) => i > 0 && distanceToSegment([2200, 1500], leg.path[i - 1]!, p) <= 11),
        ),
    );
    for (const leg of passing) expect(leg).toMatchObject({ technique: 'handrail', line: 'beck' });
    // the meeting of the streams beyond is such a place
    expect(passing.some((leg) => leg.to[0] === 2500)).toBe(true);
  });

  it('start = target', () => {
    expect(() => findRoutes(errand([2200, 1500], well), moor([well]), { count: 3 })).toThrow(
      /start is the target/,
    );
  });

  it('a target that cannot be reached', () => {
    const moat = area('moat', 'lake', [1900, 1200], [2500, 1200], [2500, 1800], [1900, 1800]);
    expect(() => findRoutes(errand([300, 1500], well), moor([moat, well]), { count: 3 })).toThrow(
      /no way from the start to the target/,
    );
  });

  it('1 500 features about one task: the search stays bounded', () => {
    const many = Array.from({ length: 1500 }, (_, i) => {
      const at: Point = [(i * 7919) % 3000, (i * 104729) % 3000];
      return i % 4 === 0
        ? line(`l${i}`, i % 8 === 0 ? 'wall' : 'stream', at, [at[0] + ((i * 31) % 300) - 150, at[1] + 120])
        : point(`p${i}`, (['boulder', 'cairn', 'ruin'] as const)[i % 3]!, at);
    });
    const before = performance.now();
    const found = findPlans(errand([300, 1500], well, 'competent', mist), moor([...many, well]), {
      count: 6,
    });
    expect(found).toHaveLength(6);
    expect(performance.now() - before).toBeLessThan(30_000);
  });
});
