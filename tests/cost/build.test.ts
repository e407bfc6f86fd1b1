import { describe, expect, test } from 'vitest';
import { buildCost, LAYERS, type LayerName, prepareCost, weighted } from '../../src/cost/build.ts';
import { PACE_REACH, PACE_STEPS } from '../../src/cost/surface.ts';
import { DEFAULT_LIMITS, DEFAULT_PARTY } from '../../src/party/presets.ts';
import { lineSeconds } from '../../src/search/edge.ts';
import { block, centre, DAY, groundOf, heights, SIDE, thing } from './ground.ts';

const LEVEL = PACE_REACH * PACE_STEPS;
const TOBLER = { ...DEFAULT_PARTY, speed: 'tobler' };
const cell = (c: number, r: number) => r * SIDE + c;
const row = (r: number) => Array.from({ length: SIDE }, (_, c) => cell(c, r));

/** A slope up to the east with heather, a path, a lake, a cairn. */
const GROUND = groundOf(
  heights((c) => c * 1.5),
  [
    block('heather', 0, 0, 19, 39),
    block('lake', 25, 25, 30, 30),
    thing('path', { type: 'line', points: [centre(0, 10), centre(39, 10)] }),
    thing('cairn', { type: 'point', at: centre(35, 35) }),
  ],
);

describe('one surface', () => {
  test('on the level a path takes what the model says on a path, grass what it says off it', () => {
    const ground = groundOf(
      heights(() => 100),
      [thing('path', { type: 'line', points: [centre(0, 10), centre(39, 10)] })],
    );
    const dry = { ...DAY, ground: 'dry' as const };
    const { surface } = buildCost(ground, dry, TOBLER, DEFAULT_LIMITS, { beta: 0 });
    const metres = 10 * (SIDE - 1);
    // Tobler on the level: 5.0367 km/h on a path, three fifths of it off
    expect(lineSeconds(surface, row(10)) / metres).toBeCloseTo(3.6 / 5.03674, 4);
    expect(lineSeconds(surface, row(20)) / metres).toBeCloseTo(3.6 / 5.03674 / 0.6, 4);
  });

  test('the dark and the mist slow every cell, wet ground those off the path', () => {
    const at = (conditions: typeof DAY, c: number, r: number) =>
      buildCost(GROUND, conditions, TOBLER, DEFAULT_LIMITS, { beta: 0 }).surface.factor[cell(c, r)]!;
    const dry = { ...DAY, ground: 'dry' as const };
    const dark = { ...dry, light: 'dark' as const };
    const spate = { ...DAY, ground: 'spate' as const };
    expect(at(dark, 30, 10) / at(dry, 30, 10)).toBeCloseTo(1 / 0.75, 5);
    expect(at(spate, 30, 10) / at(dry, 30, 10)).toBeCloseTo(1, 5);
    expect(at(spate, 10, 20) / at(dry, 10, 20)).toBeCloseTo(1 / 0.6, 5);
  });

  test('speed multipliers together never fall below a quarter', () => {
    const worst = {
      visibility: { below: 20, above: 20, cloudBase: null },
      ground: 'spate' as const,
      light: 'dark' as const,
      wind: { metresPerSecond: 25, fromDegrees: 0 },
      date: null,
    };
    const ground = groundOf(
      heights(() => 0),
      [block('hag', 0, 0, 39, 39)],
    );
    const naismith = { ...DEFAULT_PARTY, speed: 'naismith' };
    const { surface } = buildCost(ground, worst, naismith, DEFAULT_LIMITS, { beta: 0 });
    expect(surface.factor[cell(20, 20)]).toBeCloseTo(4, 6);
  });

  test('mist holds above the cloud base only', () => {
    const cloudy = { ...DAY, visibility: { below: 5000, above: 35, cloudBase: 30 } };
    const { surface } = buildCost(GROUND, cloudy, TOBLER, DEFAULT_LIMITS, { beta: 0 });
    // the slope passes 30 m between columns 20 and 21
    const factor = (c: number) => surface.factor[cell(c, 10)]!;
    expect(factor(21) / factor(20)).toBeCloseTo(1 / 0.7, 5);
  });
});

describe('weight of markless ground', () => {
  const mist = { ...DAY, visibility: { below: 50, above: 50, cloudBase: null } };
  const prepared = prepareCost(GROUND, mist, TOBLER, DEFAULT_LIMITS);

  test('time × (1 + β·markless/500), prepared once', () => {
    const plain = weighted(prepared, 0).factor;
    const heavy = weighted(prepared, 2).factor;
    const markless = prepared.markless!;
    for (const i of [cell(2, 30), cell(20, 20), cell(35, 35)]) {
      expect(heavy[i]! / plain[i]!).toBeCloseTo(1 + (2 * markless[i]!) / 500, 5);
    }
    expect(markless[cell(2, 30)]).toBeGreaterThan(100);
    expect(markless[cell(35, 35)]).toBe(0);
    expect(weighted(prepared, 2).factor[cell(27, 27)]).toBe(Number.POSITIVE_INFINITY);
  });

  test('grows as the mist thickens', () => {
    const mean = (v: number) => {
      const { markless } = prepareCost(
        GROUND,
        { ...DAY, visibility: { below: v, above: v, cloudBase: null } },
        TOBLER,
        DEFAULT_LIMITS,
      );
      return markless!.reduce((s, m) => s + m, 0) / markless!.length;
    };
    const means = [2000, 200, 50, 15].map(mean);
    for (let i = 1; i < means.length; i++) expect(means[i]).toBeGreaterThan(means[i - 1]!);
  });
});

describe('layers', () => {
  const wet = {
    ...DAY,
    ground: 'saturated' as const,
    visibility: { below: 50, above: 50, cloudBase: null },
  };
  const all = buildCost(GROUND, wet, TOBLER, DEFAULT_LIMITS, { beta: 1 });

  test('all five are there to be shown', () => {
    expect(all.layers.map((l) => l.name)).toEqual([...LAYERS]);
    for (const { raster } of all.layers) expect(raster.data).toHaveLength(SIDE * SIDE);
  });

  test.each(LAYERS)('taking away %s changes the cost, and only that layer goes', (gone) => {
    const names = LAYERS.filter((n): n is LayerName => n !== gone);
    const less = buildCost(GROUND, wet, TOBLER, DEFAULT_LIMITS, { beta: 1, layers: names });
    expect(less.layers.map((l) => l.name)).toEqual(names);
    const seconds = (built: typeof all) => [
      lineSeconds(built.surface, row(10)),
      lineSeconds(built.surface, row(20)),
      lineSeconds(built.surface, row(27)),
    ];
    expect(seconds(less)).not.toEqual(seconds(all));
  });

  test('without slope the ground is level, without all layers it is grass in the conditions of the day', () => {
    const level = buildCost(GROUND, wet, TOBLER, DEFAULT_LIMITS, { beta: 1, layers: [] });
    expect(new Set(level.surface.pace).size).toBe(1);
    expect(level.surface.pace[0]).toBe(all.surface.pace[LEVEL]);
    // V 50 by itself slows: .75 between the centres at 120 and 35 m, in ln V
    expect(new Set(level.surface.factor).size).toBe(1);
    expect(level.surface.factor[0]).toBeCloseTo(
      1 / (0.7 + (0.15 * Math.log(50 / 35)) / Math.log(120 / 35)),
      5,
    );
  });

  test('slope time is dearer on steep ground, up and down together', () => {
    const steep = groundOf(heights((c) => (c < 20 ? 0 : (c - 20) * 4)));
    const { layers } = buildCost(steep, DAY, TOBLER, DEFAULT_LIMITS, { beta: 0, layers: ['slope-time'] });
    const { data } = layers[0]!.raster;
    expect(data[cell(30, 20)]).toBeGreaterThan(2 * data[cell(10, 20)]!);
  });
});
