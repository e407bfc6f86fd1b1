import { expect, test } from 'vitest';
import { shareOf } from '../scenarios/walked.ts';
import { BENCH_DAY, benchParty, benchWorld, leg, line, route, spot } from './plain-ground.ts';

/* What no map shows, and what a dry day does: the chances are the table of the trade (common practice, no source). */
const party = benchParty('novice');
const to = (kind: 'cairn' | 'spring' | 'boulder', doubt = {}) =>
  spot('target', kind, [0, 500], { positionMetres: 0, exists: 1, ...doubt });
const worldOf = (target: ReturnType<typeof to>, ground: 'normal' | 'dry' = 'normal') =>
  benchWorld({ features: [target], start: [0, 0], target, party, conditions: { ...BENCH_DAY, ground } });
const straight = route(leg('bearing', [0, 0], [0, 500], { toFeature: 'target' }));

test('unmapped cairns are declared by some who look for a cairn, by nobody where there are none', () => {
  const world = worldOf(to('cairn', { sweepWidthMetres: 20 }));
  const wrong = (cairnsPerM2: number) =>
    shareOf({ ...world, cairnsPerM2 }, straight, 2000, (r) => r.falseFind);
  expect(wrong(0)).toBe(0);
  expect(wrong(2e-5)).toBeGreaterThan(0.05);
});

test('unmapped trods are taken for the path by some who aim off at it', () => {
  const target = spot('target', 'boulder', [0, 500], { exists: 1, positionMetres: 0, sweepWidthMetres: 20 });
  const path = line(
    'path',
    'path',
    [
      [-900, 500],
      [900, 500],
    ],
    { exists: 1, positionMetres: 0 },
  );
  const world = benchWorld({ features: [path, target], start: [0, 0], target, party });
  const plan = route(
    leg('aim-off', [0, 0], [-90, 500], { line: 'path', offsetMetres: 90, side: 'left', wanted: [0, 500] }),
    leg('handrail', [-90, 500], [0, 500], {
      line: 'path',
      fromAlong: 810,
      toAlong: 900,
      toFeature: 'target',
    }),
  );
  const found = (trodsPerM2: number) => shareOf({ ...world, trodsPerM2 }, plan, 2000);
  expect(found(6e-5)).toBeLessThan(found(0) - 0.03);
});

test('in a dry time eight of ten springs do not run', () => {
  const there = (ground: 'normal' | 'dry') =>
    worldOf(to('spring', { exists: 0.85 }), ground).spots.find((s) => s.feature.id === 'target')!.exists;
  expect(there('normal')).toBe(0.85);
  expect(there('dry')).toBe(0.2);
});

test('another like thing beside one that is seldom alone is declared by some', () => {
  const wrong = (alike: number) =>
    shareOf(worldOf(to('boulder', { alike, sweepWidthMetres: 20 })), straight, 2000, (r) => r.falseFind);
  expect(wrong(0)).toBe(0);
  expect(wrong(1)).toBeGreaterThan(0.02);
});
