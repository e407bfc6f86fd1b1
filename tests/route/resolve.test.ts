import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import type { DrawnLeg } from '../../src/route/drawn.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { errand, line, moor, point } from './moor.ts';

// A stream that runs north to south (falls to the south) across the way east; a wall with a corner; a spring on the stream.
const stream = line('beck', 'stream', [1500, 2500], [1500, 500]);
const wall = line('dyke', 'wall', [500, 1000], [1000, 1000], [1000, 2000]);
const track = line('track', 'track', [200, 200], [200, 1000], [2800, 1000]);
const spring = point('spring', 'spring', [1500, 1500]);
const ruin = point('ruin', 'ruin', [1300, 1480]);
const ground = moor([stream, wall, track, spring, ruin], { height: (_e, n) => 200 + 0.1 * n });
const task = errand([500, 1500], spring);

const resolve = (...legs: DrawnLeg[]) => resolveRoute({ name: 'drawn', legs }, task, ground, 'r1');

function problem(...legs: DrawnLeg[]): string {
  try {
    resolve(...legs);
  } catch (error) {
    if (error instanceof UserError) return error.message;
    throw error;
  }
  return 'no problem';
}

describe('a drawn leg becomes a leg', () => {
  it('a bearing to a feature is confirmed by it, and legs are chained', () => {
    const route = resolve(
      { technique: 'bearing', to: { feature: 'ruin' } },
      { technique: 'bearing', to: 'target' },
    );
    expect(route.legs.map((l) => [l.from, l.to, l.toFeature, l.fine])).toEqual([
      [[500, 1500], [1300, 1480], 'ruin', false],
      [[1300, 1480], [1500, 1500], 'spring', true],
    ]);
  });

  it('aiming off wants the point of the line nearest the target and lies to the side faced walking', () => {
    const left = resolve({ technique: 'aim-off', line: 'beck', side: 'left', metres: 60 });
    // Walking east, left is north.
    expect(left.legs[0]).toMatchObject({
      wanted: [1500, 1500],
      to: [1500, 1560],
      side: 'left',
      offsetMetres: 60,
    });
    const right = resolve({ technique: 'aim-off', line: 'beck', side: 'right', metres: 60 });
    expect(right.legs[0]!.to).toEqual([1500, 1440]);
    // The walk along the line to the target follows of itself.
    expect(right.legs[1]).toMatchObject({
      technique: 'handrail',
      line: 'beck',
      to: [1500, 1500],
      toFeature: 'spring',
    });
  });

  it('aiming off without a side goes to the low side, by 1.5 to 2 lateral SD within 30 to 150 m', () => {
    const leg = resolve({ technique: 'aim-off', line: 'beck' }).legs[0]!;
    expect(leg.side).toBe('right');
    // 1000 m, competent: σ 43.6 m, wander 12.5 m, drift SD 6.1 m → 45.8 m.
    expect(leg.offsetMetres).toBeGreaterThanOrEqual(1.5 * 45.8);
    expect(leg.offsetMetres).toBeLessThanOrEqual(2 * 45.8);
  });

  it('a handrail goes to the mouth, the source, a compass direction or a place, for a distance or to the end', () => {
    const onBeck: DrawnLeg = { technique: 'bearing', to: { at: [1500, 1000] } };
    const home: DrawnLeg = { technique: 'bearing', to: 'target' };
    const end = (leg: DrawnLeg) => resolve(onBeck, leg, home).legs[1]!.to;
    expect(end({ technique: 'handrail', along: 'beck', towards: 'mouth', metres: 150 })).toEqual([1500, 850]);
    expect(end({ technique: 'handrail', along: 'beck', towards: 'source', metres: 150 })).toEqual([
      1500, 1150,
    ]);
    expect(end({ technique: 'handrail', along: 'beck', towards: 'NE', metres: 150 })).toEqual([1500, 1150]);
    expect(end({ technique: 'handrail', along: 'beck', towards: 'start' })).toEqual([1500, 2500]);
    expect(end({ technique: 'handrail', along: 'beck', towards: 'ruin' })).toEqual([1500, 1480]);
    expect(end({ technique: 'handrail', along: 'beck', to: { feature: 'ruin' } })).toEqual([1500, 1480]);
  });

  it('a handrail followed by another ends where the lines meet, round corners', () => {
    const route = resolve(
      { technique: 'bearing', to: { at: [600, 1000] } },
      { technique: 'handrail', along: 'track', towards: 'east' },
      { technique: 'handrail', along: 'beck', towards: 'source' },
    );
    expect(route.legs[1]).toMatchObject({ to: [1500, 1000], toFeature: 'crossing:beck+track' });
    expect(route.legs[2]).toMatchObject({ from: [1500, 1000], to: [1500, 1500], toFeature: 'spring' });
    const corner = resolve(
      { technique: 'bearing', to: { at: [700, 1000] } },
      { technique: 'handrail', along: 'dyke', towards: 'end', metres: 800 },
      { technique: 'bearing', to: 'target' },
    );
    expect(corner.legs[1]!.path).toEqual([
      [700, 1000],
      [1000, 1000],
      [1000, 1500],
    ]);
  });

  it('a contour holds its height; on this tilted plane that is due east', () => {
    const leg = resolve({ technique: 'contour', to: 'target' }).legs[0]!;
    for (const [, north] of leg.path) expect(Math.abs(north - 1500)).toBeLessThan(1);
  });

  it('ticks are ordered with their running metres; a catching line says how far behind it lies', () => {
    const leg = resolve({ technique: 'bearing', to: 'target', ticks: ['ruin', 'dyke'], catching: 'beck' })
      .legs[0]!;
    expect(leg.ticks.map((t) => [t.feature, Math.round(t.atMetres)])).toEqual([
      ['dyke', 500],
      ['ruin', 800],
    ]);
    expect(leg.catching).toEqual({ line: 'beck', beyondMetres: 0 });
  });

  it('a box goes out, along and back', () => {
    expect(resolve({ technique: 'box', to: 'target', side: 'left', metres: 100 }).legs[0]!.path).toEqual([
      [500, 1500],
      [500, 1600],
      [1500, 1600],
      [1500, 1500],
    ]);
  });
});

describe('a wrong leg gives one message with its place', () => {
  it.each<[string, DrawnLeg[], RegExp]>([
    ['empty', [], /route "drawn": the route is empty/],
    [
      'unknown feature',
      [{ technique: 'bearing', to: { feature: 'riun' } }],
      /leg 1: no such feature.*did you mean ruin/,
    ],
    [
      'short of the target',
      [{ technique: 'bearing', to: { feature: 'ruin' } }],
      /does not reach the target.*201 m/,
    ],
    [
      'off the line',
      [{ technique: 'handrail', along: 'beck' }],
      /leg 1: .*does not begin at beck.*1000 m away/,
    ],
    ['not a line', [{ technique: 'handrail', along: 'ruin' }], /is no line.*a ruin/],
    [
      'no way along',
      [
        { technique: 'handrail', along: 'track', towards: 'nroth' },
        { technique: 'bearing', to: 'target' },
      ],
      /does not begin at track/,
    ],
    ['off the map', [{ technique: 'bearing', to: { at: [5000, 1] } }], /off the map.*east 0 to 3000/],
    ['no length', [{ technique: 'bearing', to: { at: [500, 1500] } }], /no length/],
    ['no place', [{ technique: 'bearing' }], /must say where it goes/],
    [
      'longer than the line',
      [
        { technique: 'bearing', to: { at: [1500, 600] } },
        { technique: 'handrail', along: 'beck', towards: 'mouth', metres: 500 },
      ],
      /leg 2: beck is not that long.*at most 100 m/,
    ],
    [
      'misspelt way',
      [
        { technique: 'bearing', to: { at: [1500, 600] } },
        { technique: 'handrail', along: 'beck', towards: 'mouht' },
      ],
      /leg 2: .*did you mean mouth/,
    ],
    [
      'tick far off',
      [{ technique: 'bearing', to: 'target', ticks: ['track'] }],
      /tick-off feature is not met.*500 m/,
    ],
    [
      'catching beside',
      [{ technique: 'bearing', to: 'target', catching: 'dyke' }],
      /does not lie across the way ahead/,
    ],
  ])('%s', (_name, legs, message) => {
    expect(problem(...legs)).toMatch(message);
  });
});
