import { describe, expect, it } from 'vitest';
import { climbOf } from '../../src/route/climb.ts';
import { figuresOf, routeFigures, walkingOf } from '../../src/route/figures.ts';
import { scatterOf } from '../../src/route/lateral.ts';
import type { Leg } from '../../src/route/leg.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { saysOf } from '../../src/route/says.ts';
import { errand, line, moor, point } from './moor.ts';

describe('climb', () => {
  it.each<[string, number[], number, number]>([
    ['level', [5, 5, 5], 0, 0],
    ['up', [0, 10, 20, 30], 30, 0],
    ['noise below the threshold on a rise', [0, 10, 8, 20, 17, 30], 30, 0],
    ['over a top', [0, 30, 10], 30, 20],
    ['a dip first', [10, 6, 20], 14, 4],
    ['up, down, up', [0, 20, 10, 40, 33], 50, 17],
    ['missing heights are passed over', [0, Number.NaN, 10], 10, 0],
    ['nothing known', [Number.NaN], 0, 0],
  ])('%s', (_name, heights, climb, descent) => {
    expect(climbOf(heights, 5)).toEqual({ climbMetres: climb, descentMetres: descent });
  });

  it('climb less descent is always the difference of the ends', () => {
    let z = 0;
    const heights = Array.from({ length: 500 }, (_, i) => (z += ((i * 7919) % 13) - 6));
    for (const threshold of [1, 5, 20]) {
      const { climbMetres, descentMetres } = climbOf(heights, threshold);
      expect(climbMetres - descentMetres).toBeCloseTo(heights[499]! - heights[0]!, 9);
    }
  });
});

describe('figures of a leg', () => {
  const wall = line('dyke', 'wall', [200, 200], [200, 1200], [1200, 1200]);
  const track = line('track', 'track', [200, 200], [1200, 200]);
  const spring = point('spring', 'spring', [1200, 1200]);
  const flat = moor([wall, track, spring]);
  // Naismith on the level is 5 km/h: 1 km on short grass (.87) is 12/.87 minutes, on a track 12.
  const plain = {
    ...errand([200, 200], spring),
    party: { ...errand([200, 200], spring).party, speed: 'naismith' },
  };
  const walking = walkingOf(flat, plain);
  const route = resolveRoute(
    { name: 'by the wall', legs: [{ technique: 'handrail', along: 'dyke' }] },
    plain,
    flat,
    'r',
  );

  it('follow the bend, not the crow', () => {
    const figures = figuresOf(route.legs[0]!, walking);
    expect(figures.distanceMetres).toBeCloseTo(2000, 6);
    expect(figures.gridBearing).toBeCloseTo(0, 9);
    expect(figures.minutes).toBeCloseTo(24 / 0.87, 3);
    // 65 double paces per 100 m, 5 % more on grass than on a path.
    expect(figures.doublePaces).toBe(1365);
    expect(saysOf(route.legs[0]!, figures, flat, plain)).toBe(
      'Follow the wall north-east for 2000 m to the spring.',
    );
  });

  it('a track is walked on the track', () => {
    const on: Leg = {
      technique: 'handrail',
      from: [200, 200],
      to: [1200, 200],
      path: [
        [200, 200],
        [1200, 200],
      ],
      line: 'track',
      ticks: [],
      fine: false,
    };
    expect(figuresOf(on, walking).minutes).toBeCloseTo(12, 3);
    const beside: Leg = {
      ...on,
      technique: 'bearing',
      path: [
        [200, 300],
        [1200, 300],
      ],
    };
    expect(figuresOf(beside, walking).minutes).toBeCloseTo(12 / 0.87, 1);
  });

  it('poor visibility, wet ground and a side slope cost time; sums are those of the legs', () => {
    const mist = {
      ...plain,
      conditions: {
        ...plain.conditions,
        visibility: { below: 120, above: 120, cloudBase: null },
        ground: 'wet' as const,
      },
    };
    const slow = figuresOf(route.legs[0]!, walkingOf(flat, mist)).minutes;
    expect(slow / (24 / 0.87)).toBeCloseTo(1 / (0.85 * 0.9), 3);
    // a hollow is a step wetter than the day: on wet ground saturated, .75 against .9 (model of the trade, no source)
    const hollow = moor([wall, track, spring], { wetnessIndex: 20 });
    const damp = figuresOf(route.legs[0]!, walkingOf(hollow, mist)).minutes;
    expect(damp / slow).toBeCloseTo(0.9 / 0.75, 3);
    const tilted = moor([wall, track, spring], { height: (e) => 0.36397 * e });
    const along = figuresOf(
      {
        ...route.legs[0]!,
        path: [
          [500, 200],
          [500, 1200],
        ],
      },
      walkingOf(tilted, plain),
    ).minutes;
    expect(along).toBeCloseTo(12 / 0.87 / 0.75, 2);
    expect(routeFigures(route.legs, walking).minutes).toBeCloseTo(24 / 0.87, 3);
  });
});

describe('scatter of a leg', () => {
  it('is that of the closed form', () => {
    const spring = point('spring', 'spring', [1500, 500]);
    const flat = moor([spring]);
    // 1000 m, σ 2.5°, s 3.2° with marks every 50 m: √(43.63² + 3.949²·10) = 45.4 m; along 1.054·1000·.05·1.05 (grass) = 55.3 m.
    const { lateral, along, drift } = scatterOf(flat, errand([500, 500], spring), [500, 500], [1500, 500]);
    expect(lateral).toBeCloseTo(45.39, 1);
    expect(along).toBeCloseTo(55.34, 1);
    expect(drift).toBeCloseTo(0, 9);
  });

  it('drifts to the low side by k·tan(slope), half of it as scatter', () => {
    const spring = point('spring', 'spring', [1500, 500]);
    // Walking east, rising to the north (left): the low side is the right.
    const tilted = moor([spring], { height: (_e, n) => 0.36397 * n });
    const { drift } = scatterOf(tilted, errand([900, 500], spring), [900, 500], [1500, 500]);
    // Scenario: 600 m across 20°, k 7°: mean 27 m.
    expect(drift).toBeCloseTo(26.7, 1);
  });
});
