import { expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import { MOST_TOLD_APART, nearestLines } from '../../src/walk/nearest-lines.ts';
import { BENCH_LIMITS, benchParty, benchWorld, CERTAIN, line, spot } from './plain-ground.ts';

// plain geometry: walls athwart at ever greater distances from the way, the nearest last on the map
const target = spot('target', 'boulder', [0, 500], { ...CERTAIN, sweepWidthMetres: 10 });
const COUNT = MOST_TOLD_APART + 50;
const walls = Array.from({ length: COUNT }, (_, i) => {
  const away = COUNT - i;
  return line(`wall-${i}`, 'wall', [
    [away, 100],
    [away, 200],
  ]);
});
const world = benchWorld({
  features: [...walls, target],
  start: [0, 0],
  target,
  party: benchParty('competent'),
  limits: BENCH_LIMITS,
});
const way: Point[] = [
  [0, 0],
  [0, 500],
];

test('of more lines than are told apart the nearest to the way stay, in their order', () => {
  const kept = nearestLines(world.lines, way, 7);
  expect(kept.map((l) => l.feature.id)).toEqual(Array.from({ length: 7 }, (_, i) => `wall-${COUNT - 7 + i}`));
  expect(nearestLines(world.lines, way, COUNT)).toEqual([...world.lines]);
});

test('the way back of a crowded ground looks out for no more than are told apart, the nearest among them', () => {
  expect(world.lines).toHaveLength(COUNT);
  expect(world.wayBack.lines).toHaveLength(MOST_TOLD_APART);
  expect(world.wayBack.lines).toContain(world.lineById.get(`wall-${COUNT - 1}`));
  expect(world.wayBack.lines).not.toContain(world.lineById.get('wall-0'));
});
