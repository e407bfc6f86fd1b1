import { describe, expect, test } from 'vitest';
import { HAZARD_REACH, hazardBuffer } from '../../src/cost/hazard.ts';
import { BARRIERS, barriers } from '../../src/cost/layers/barrier.ts';
import { marklessDistance } from '../../src/cost/layers/markless.ts';
import { surfaceLayer } from '../../src/cost/layers/surface.ts';
import { wetnessLayer } from '../../src/cost/layers/wetness.ts';
import type { Point } from '../../src/math/plane.ts';
import { DEFAULT_LIMITS } from '../../src/party/presets.ts';
import { TOBLER } from '../../src/speed/tobler.ts';
import { SURFACES } from '../../src/terrain/terrain.ts';
import { block, centre, DAY, groundOf, heights, SIDE, textMap, thing } from './ground.ts';

const FLAT = heights(() => 100);
const cell = (c: number, r: number) => r * SIDE + c;

describe('mapped ground', () => {
  test('cover: grass where nothing is mapped, later areas over earlier, made ways on top', () => {
    const ground = groundOf(FLAT, [
      block('heather', 0, 0, 9, 9),
      block('boulder-field', 5, 0, 14, 9),
      thing('track', { type: 'line', points: [centre(0, 4), centre(20, 4)] }),
      thing('path', { type: 'line', points: [centre(0, 6), centre(20, 6)] }, { exists: 0.3 }),
      thing('right-of-way', { type: 'line', points: [centre(0, 8), centre(20, 8)] }),
    ]);
    const code = (c: number, r: number) => SURFACES[ground.cover.data[cell(c, r)]!];
    expect(code(2, 2)).toBe('heather');
    expect(code(7, 2)).toBe('boulder');
    expect(code(20, 20)).toBe('grass');
    expect(code(2, 4)).toBe('path');
    expect(code(20, 4)).toBe('path');
    // a path that is likely not there, and a line that is only a right
    expect(code(2, 6)).toBe('heather');
    expect(code(18, 8)).toBe('grass');
  });

  test('features know their places: ids of the map and those derived from its lines', () => {
    const ground = groundOf(FLAT, [
      thing('wall', { type: 'line', points: [centre(5, 20), centre(35, 20)] }, {}, 'long-wall'),
      thing('wall', { type: 'line', points: [centre(20, 20), centre(20, 5)] }, {}, 'cross-wall'),
    ]);
    expect(ground.byId.get('long-wall')?.origin).toBe('mapped');
    const junction = ground.features.find((f) => f.kind === 'junction');
    expect(junction?.origin).toBe('derived');
    expect(ground.byId.get(junction!.id)).toBe(junction);
    expect(ground.network.edges.length).toBeGreaterThanOrEqual(3);
  });

  test('distance to a mapped drop is exact up to its reach, 0 inside steep ground', () => {
    const edge: Point[] = [
      [100, 203],
      [300, 203],
    ];
    const ground = groundOf(FLAT, [
      thing('cliff', { type: 'line', points: edge }),
      block('steep-ground', 30, 30, 35, 35),
    ]);
    expect(ground.hazardsMapped).toBe(true);
    // centre of row 20 lies at 195 m north
    expect(ground.hazard.data[cell(20, 20)]).toBeCloseTo(8, 5);
    expect(ground.hazard.data[cell(20, 24)]).toBeCloseTo(48, 5);
    // past the end of the edge: 15 m beyond and 8 m beside
    expect(ground.hazard.data[cell(31, 20)]).toBeCloseTo(Math.hypot(15, 8), 5);
    expect(ground.hazard.data[cell(20, 27)]).toBe(Number.POSITIVE_INFINITY);
    expect(ground.hazard.data[cell(32, 32)]).toBe(0);
    expect(HAZARD_REACH).toBeGreaterThanOrEqual(30);
  });

  test('no hazard mapped is not the same as none there', () => {
    const ground = groundOf(FLAT, [block('heather', 0, 0, 9, 9)]);
    expect(ground.hazardsMapped).toBe(false);
    expect(ground.hazard.data.every((m) => m === Number.POSITIVE_INFINITY)).toBe(true);
  });
});

describe('barriers', () => {
  const reason = (ground: ReturnType<typeof groundOf>, conditions = DAY, limits = DEFAULT_LIMITS) => {
    const { data } = barriers(ground, conditions, limits);
    return (c: number, r: number) => BARRIERS[data[cell(c, r)]!];
  };

  test('slope over the limit, by the limit', () => {
    // 7 m in 10 m is 35.0 degrees: 36.9 at 7.5
    const ramp = groundOf(heights((c) => (c < 15 ? 0 : c > 25 ? 75 : (c - 15) * 7.5)));
    expect(reason(ramp)(20, 20)).toBe('slope over the limit');
    expect(reason(ramp)(8, 20)).toBe('open');
    expect(reason(ramp, DAY, { ...DEFAULT_LIMITS, slopeDegrees: 40 })(20, 20)).toBe('open');
  });

  test('15 m from a drop, 30 m in thick mist or in the dark', () => {
    const ground = groundOf(FLAT, [
      thing('cliff', {
        type: 'line',
        points: [
          [100, 205],
          [300, 205],
        ],
      }),
    ]);
    // row 20: 10 m, row 21: 20 m, row 23: 40 m from the edge
    const clear = reason(ground);
    expect([19, 20, 21, 22, 23].map((r) => clear(20, r) === 'edge of a mapped drop')).toEqual([
      true,
      true,
      false,
      false,
      false,
    ]);
    const mist = { ...DAY, visibility: { below: 80, above: 80, cloudBase: null } };
    for (const conditions of [mist, { ...DAY, light: 'dark' as const }])
      expect([20, 21, 22, 23].map((r) => reason(ground, conditions)(20, r) === 'open')).toEqual([
        false,
        false,
        false,
        true,
      ]);
    expect([hazardBuffer(100, 'day'), hazardBuffer(99, 'day'), hazardBuffer(5000, 'dark')]).toEqual([
      15, 30, 30,
    ]);
  });

  test('water, ground out of bounds, and what a mapped way opens', () => {
    const ground = groundOf(FLAT, [
      block('lake', 10, 10, 15, 15),
      block('out-of-bounds', 25, 10, 30, 15),
      thing('track', { type: 'line', points: [centre(5, 12), centre(35, 12)] }),
    ]);
    const why = reason(ground);
    expect(why(11, 11)).toBe('water');
    // somebody walks the causeway; nobody is let through the enclosure
    expect(why(11, 12)).toBe('open');
    expect(why(26, 11)).toBe('out of bounds');
    expect(why(26, 12)).toBe('out of bounds');
    expect(why(20, 20)).toBe('open');
  });

  test('a stream in spate is a wall of cells, open at a bridge and where a track crosses', () => {
    const ground = groundOf(FLAT, [
      thing('stream', {
        type: 'line',
        points: [
          [3, 207],
          [397, 243],
        ],
      }),
      thing('small-stream', {
        type: 'line',
        points: [
          [3, 100],
          [397, 100],
        ],
      }),
      thing('bridge', { type: 'point', at: [205, 225] }),
      thing('track', { type: 'line', points: [centre(30, 5), centre(30, 35)] }),
    ]);
    const spate = { ...DAY, ground: 'spate' as const };
    const { data } = barriers(ground, spate, DEFAULT_LIMITS);
    const open = Array.from({ length: SIDE }, (_, c) =>
      Array.from({ length: SIDE }, (_, r) => data[cell(c, r)] !== 0).every((closed) => !closed),
    );
    const gaps = open.flatMap((o, c) => (o ? [c] : []));
    expect(gaps).toContain(20);
    expect(gaps).toContain(30);
    expect(gaps).not.toContain(10);
    expect(textMap({ columns: SIDE, data }, (v) => (v === 0 ? '.' : '#'))[30]).toBe('.'.repeat(SIDE));
    expect(barriers(ground, { ...DAY, ground: 'saturated' }, DEFAULT_LIMITS).data.every((v) => v === 0)).toBe(
      true,
    );
  });
});

describe('wetness', () => {
  const index = { ...FLAT, data: new Float32Array(FLAT.data.length).fill(6) };
  const cover = groundOf(FLAT, [
    thing('track', { type: 'line', points: [centre(0, 4), centre(39, 4)] }),
  ]).cover;
  index.data[cell(5, 20)] = 10;
  index.data[cell(6, 20)] = 14;
  index.data[cell(7, 20)] = Number.NaN;

  test('the day off the path, a step wetter in hollows, nothing on a path', () => {
    const wet = wetnessLayer(index, cover, 'wet').data;
    expect(wet[cell(20, 20)]).toBeCloseTo(1 / 0.9, 6);
    expect(wet[cell(6, 20)]).toBeCloseTo(1 / 0.75, 6);
    expect(wet[cell(5, 20)]).toBeCloseTo((1 / 0.9 + 1 / 0.75) / 2, 6);
    expect(wet[cell(7, 20)]).toBeCloseTo(1 / 0.9, 6);
    expect(wet[cell(20, 4)]).toBe(1);
  });

  test('normal ground is wet in hollows; dry ground is dry everywhere; spate is as wet as it gets', () => {
    expect(wetnessLayer(index, cover, 'normal').data[cell(6, 20)]).toBeCloseTo(1 / 0.9, 6);
    expect(wetnessLayer(index, cover, 'dry').data.every((x) => x === 1)).toBe(true);
    expect(wetnessLayer(index, cover, 'spate').data[cell(6, 20)]).toBeCloseTo(1 / 0.6, 6);
  });
});

test('surface layer: slowness of each cover against the off-path table', () => {
  const ground = groundOf(FLAT, [
    block('hag', 0, 0, 9, 9),
    thing('path', { type: 'line', points: [centre(0, 20), centre(39, 20)] }),
  ]);
  const { data } = surfaceLayer(ground.cover, TOBLER);
  expect(data[cell(3, 3)]).toBeCloseTo(0.87 / 0.42, 6);
  expect(data[cell(30, 20)]).toBeCloseTo(0.6, 6);
  expect(data[cell(30, 30)]).toBe(1);
});

describe('markless distance', () => {
  /** '#': closed, 'o': something in view. */
  function from(map: readonly string[], side = 10): number[] {
    const text = map.join('');
    const columns = map[0]!.length;
    const g = { crs: '', west: 0, north: 0, cell: side, columns, rows: map.length };
    const seen = Uint8Array.from(text, (x) => (x === 'o' ? 1 : 0));
    const closed = Uint8Array.from(text, (x) => (x === '#' ? 1 : 0));
    return [...marklessDistance(g, seen, closed)].map((m) => Math.round(m * 10) / 10);
  }

  test('is the least walk over 8 neighbours to where something is in view', () => {
    expect(from(['o....', '.....', '....o'])).toEqual([
      0, 10, 20, 24.1, 20, 10, 14.1, 24.1, 14.1, 10, 20, 24.1, 20, 10, 0,
    ]);
  });

  test('goes round barriers, however they wind', () => {
    const d = from([
      'o#...',
      '.#.#.',
      '.#.#.',
      '...#.', //
    ]);
    // four straight steps and three diagonal ones
    expect(d[4]).toBeCloseTo(10 * 4 + 3 * 10 * Math.SQRT2, 1);
    // east of the second wall, down to the foot
    expect(d[19]).toBeGreaterThan(d[4]!);
  });

  test('is capped, also where nothing can be reached', () => {
    expect(from(['o' + '.'.repeat(80)])[80]).toBe(500);
    expect(from(['o#.'])).toEqual([0, 500, 500]);
    expect(from(['...'])).toEqual([500, 500, 500]);
    // what is seen from inside a barrier helps nobody outside it
    expect(from(['#..'])).toEqual([500, 500, 500]);
  });
});
