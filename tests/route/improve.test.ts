import { describe, expect, it } from 'vitest';
import type { ChangeKind } from '../../src/route/changes/made.ts';
import { doubtfulOn } from '../../src/route/doubtful.ts';
import type { DrawnLeg } from '../../src/route/drawn.ts';
import { estimateOf } from '../../src/route/estimate.ts';
import { changesOf } from '../../src/route/improve.ts';
import { planningOf } from '../../src/route/planning.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { whyOf } from '../../src/route/why.ts';
import { CLEAR, errand, line, moor, point } from './moor.ts';

const mist = { ...CLEAR, visibility: { below: 150, above: 150, cloudBase: null } };
const beck = line('beck', 'stream', [2200, 2900], [2200, 300]);
const wall = line('dyke', 'wall', [2300, 2900], [2300, 300]);
const track = line('track', 'track', [300, 1500], [1500, 1900], [2600, 1900]);
const ruin = point('ruin', 'ruin', [2050, 1560]);
const spring = point('spring', 'spring', [2200, 1500]);
const ground = moor([beck, wall, track, ruin, spring], { height: (_e, n) => 200 + 0.02 * n });
const task = errand([300, 1500], spring, 'novice', mist);
const planning = planningOf(ground, task);
const drawn = (...legs: DrawnLeg[]) => resolveRoute({ name: 'drawn', legs }, task, ground, 'd');
const straight = drawn({ technique: 'bearing', to: 'target' });

const kinds = (route: typeof straight) => new Set(changesOf(route, planning).map((c) => c.kind));

describe('the one-change list', () => {
  it('offers a straight bearing an aim-off, an attack point, a backstop, tick-offs and the clock', () => {
    const offered = kinds(straight);
    for (const kind of [
      'aim off',
      'other attack point',
      'catching feature',
      'other technique',
    ] as ChangeKind[]) {
      expect(offered).toContain(kind);
    }
  });

  it('each change differs in what it says, is a whole route, and says so plainly', () => {
    for (const { route, says, kind } of changesOf(straight, planning)) {
      expect(says.length).toBeGreaterThan(8);
      expect(route.legs[0]!.from).toEqual([300, 1500]);
      for (let i = 1; i < route.legs.length; i++) expect(route.legs[i]!.from).toEqual(route.legs[i - 1]!.to);
      expect(route.legs.at(-1)!.toFeature).toBe('spring');
      expect(route.legs.at(-1)!.fine).toBe(true);
      if (kind === 'aim off') expect(route.legs[0]).toMatchObject({ technique: 'aim-off', line: 'beck' });
      if (kind === 'catching feature')
        expect(route.legs[0]!.catching).toEqual({ line: 'dyke', beyondMetres: 100 });
    }
  });

  it('aiming off to both sides, by 1.5 and 2 SD, in 30 to 150 m', () => {
    const aims = changesOf(straight, planning).filter((c) => c.kind === 'aim off');
    for (const { route } of aims) {
      expect(route.legs[0]!.offsetMetres).toBeGreaterThanOrEqual(30);
      expect(route.legs[0]!.offsetMetres).toBeLessThanOrEqual(150);
    }
  });

  it('a route that leaves a line early is told to stay on it, and that shortens the last leg', () => {
    const early = drawn(
      { technique: 'bearing', to: { at: [2200, 1900] } },
      { technique: 'handrail', along: 'beck', towards: 'south', metres: 150 },
      { technique: 'bearing', to: 'target' },
    );
    const stay = changesOf(early, planning).find((c) => c.kind === 'shorter last leg');
    expect(stay?.says).toMatch(/stay on the stream/);
    expect(stay?.route.legs.map((l) => l.technique)).toEqual(['bearing', 'handrail']);
    expect(stay?.route.legs.at(-1)?.to).toEqual([2200, 1500]);
  });

  it('a given aim-off is not offered again', () => {
    const first = changesOf(straight, planning).find((c) => c.kind === 'aim off')!;
    const again = changesOf(first.route, planning).filter((c) => c.kind === 'aim off');
    const { side, offsetMetres } = first.route.legs[0]!;
    for (const { route } of again) {
      const aim = route.legs[0]!;
      expect(aim.side === side && Math.abs(aim.offsetMetres! - offsetMetres!) < 10).toBe(false);
    }
  });

  it('what may not be there and is relied on is named, the most doubtful first', () => {
    const legs = changesOf(straight, planning).find((c) => c.kind === 'catching feature')!.route;
    expect(doubtfulOn(legs, task, ground).map((f) => f.id)).toEqual(['dyke']);
  });
});

describe('cheap estimates', () => {
  const share = (
    target = spring,
    skill: 'novice' | 'competent' | 'expert' = 'novice',
    at: [number, number] = [300, 1500],
  ) => {
    const there = errand(at, target, skill, mist);
    const route = resolveRoute(
      { name: 's', legs: [{ technique: 'bearing', to: 'target' }] },
      there,
      ground,
      's',
    );
    return estimateOf(route.legs, planningOf(ground, there)).share;
  };

  it('rise with skill and fall with the length of the leg', () => {
    expect(share(spring, 'expert')).toBeGreaterThan(share(spring, 'competent'));
    expect(share(spring, 'competent')).toBeGreaterThan(share(spring, 'novice'));
    expect(share(spring, 'novice', [1900, 1500])).toBeGreaterThan(share(spring, 'novice', [1200, 1500]));
  });

  it('put aiming off before a straight bearing at a spring on a stream, in mist', () => {
    const before = estimateOf(straight.legs, planning).share;
    const aim = changesOf(straight, planning).find((c) => c.kind === 'aim off')!;
    expect(aim.estimate.share).toBeGreaterThan(before);
  });

  it('of a route without an error are those of a certain find', () => {
    const sure = {
      ...spring,
      doubt: { ...spring.doubt, exists: 1, positionMetres: 0, visibility: 'high' as const },
    };
    const there = errand([1900, 1500], sure, 'expert');
    const set = {
      ...there.party.set,
      bearingDegrees: 0,
      resightDegrees: 0,
      wanderMetres: 0,
      paceShare: 0,
      driftDegrees: 0,
      reverseShare: 0,
      slipShare: 0,
      recognisedShare: 1,
    };
    const still = { ...there, party: { ...there.party, set } };
    const route = resolveRoute(
      { name: 's', legs: [{ technique: 'bearing', to: 'target' }] },
      still,
      ground,
      's',
    );
    expect(estimateOf(route.legs, planningOf(ground, still)).share).toBeCloseTo(1, 6);
  });
});

describe('why, in one sentence', () => {
  it('names what a route relies on, and the leg that loses most with its reason', () => {
    const route = drawn(
      { technique: 'handrail', along: 'track', towards: 'east', metres: 1200 },
      { technique: 'bearing', to: { feature: 'ruin' } },
      { technique: 'bearing', to: 'target' },
    );
    const result = {
      share: 0.6,
      falseFindShare: 0.01,
      lateShare: 0,
      legs: [
        { lostHereShare: 0.01, reasons: {} },
        { lostHereShare: 0.05, reasons: { leg: 0.04 } },
        { lostHereShare: 0.33, reasons: { leg: 0.3, ground: 0.03 } },
      ],
    };
    const sentence = whyOf(route, result, ground, task);
    expect(sentence).toMatch(/^Relies on the track and the ruin/);
    expect(sentence).toMatch(
      /risks the last 160 m: about 33 of 100 such parties go wrong there, mostly by the bearing/,
    );
    expect(sentence.match(/\./g)).toHaveLength(1);
  });

  it('a straight bearing relies on compass and count alone; a late one says so', () => {
    const result = {
      share: 0.9,
      falseFindShare: 0,
      lateShare: 0.08,
      legs: [{ lostHereShare: 0, reasons: {} }],
    };
    expect(whyOf(straight, result, ground, task)).toBe(
      'Relies on compass and count alone for 1900 m; about 8 of 100 come too late.',
    );
  });
});
