import { expect, test } from 'vitest';
import { crossingsOf } from '../../src/features/crossings.ts';
import type { Point } from '../../src/math/plane.ts';

// plane geometry: each by the equation of its lines
const diagonal: Point[] = [
  [0, 0],
  [100, 100],
];

test('a segment and a bent line cross where their equations agree', () => {
  const bent: Point[] = [
    [0, 60],
    [60, 0],
    [100, 60],
  ];
  const found = crossingsOf(diagonal, bent).sort((p, q) => p[0] - q[0]);
  expect(found).toHaveLength(1);
  expect(found[0]![0]).toBeCloseTo(30, 9);
  expect(found[0]![1]).toBeCloseTo(30, 9);
});

test('a line met twice is met twice, a line touched at its end is met', () => {
  const bay: Point[] = [
    [20, 0],
    [20, 80],
    [70, 80],
    [70, 0],
  ];
  expect(crossingsOf(diagonal, bay)).toHaveLength(2);
  const stub: Point[] = [
    [50, 50],
    [80, 20],
  ];
  expect(crossingsOf(diagonal, stub)).toHaveLength(1);
});

test('what lies beside, far off or short of it is not met', () => {
  const beside: Point[] = [
    [10, 0],
    [100, 80],
  ];
  const far: Point[] = [
    [500, 0],
    [600, 300],
    [500, 600],
  ];
  const short: Point[] = [
    [120, 100],
    [100, 120],
  ];
  for (const line of [beside, far, short]) {
    expect(crossingsOf(diagonal, line)).toEqual([]);
    expect(crossingsOf(line, diagonal)).toEqual([]);
  }
});
