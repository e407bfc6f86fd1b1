import { describe, expect, test } from 'vitest';
import {
  decayPerYear,
  defaultDoubt,
  doubtOf,
  EXTRAS_PER_KM2,
  existsInWetness,
  yearsBetween,
} from '../../src/features/doubt.ts';
import { FEATURE_KINDS, type FeatureKind } from '../../src/features/kinds.ts';

// The table that the model states: common practice, no published source. exists, SD of position, range, class of visibility.
const STATED: Partial<Record<FeatureKind, [number, number, number, string]>> = {
  wall: [0.97, 5, 400, 'high'],
  'ruined-wall': [0.85, 8, 60, 'medium'],
  fence: [0.85, 10, 150, 'medium'],
  track: [0.97, 6, 300, 'high'],
  path: [0.85, 12, 30, 'medium'],
  'right-of-way': [0.5, 25, 10, 'low'],
  stream: [0.99, 6, 30, 'medium'],
  'small-stream': [0.9, 8, 15, 'low'],
  confluence: [0.98, 6, 25, 'medium'],
  tarn: [0.95, 8, 150, 'high'],
  pool: [0.5, 8, 20, 'low'],
  crag: [0.9, 10, 80, 'medium'],
  boulder: [0.8, 10, 50, 'medium'],
  cairn: [0.75, 8, 80, 'medium'],
  ruin: [0.97, 6, 200, 'high'],
  fold: [0.9, 6, 150, 'high'],
  'boundary-stone': [0.8, 8, 25, 'low'],
  gate: [0.85, 8, 40, 'medium'],
  'wall-corner': [0.93, 6, 80, 'medium'],
  knoll: [0.95, 15, 200, 'high'],
  're-entrant': [0.95, 15, 100, 'medium'],
  'break-of-slope': [0.8, 25, 60, 'low'],
  'flat-summit': [0.99, 30, 50, 'low'],
  'forest-edge': [0.85, 15, 500, 'high'],
  'marsh-edge': [0.7, 30, 15, 'low'],
};

test.each(Object.entries(STATED))('%s has the stated doubt', (kind, [exists, sd, range, visibility]) => {
  const doubt = defaultDoubt(kind as FeatureKind);
  expect([doubt.exists, doubt.positionMetres, doubt.rangeMetres, doubt.visibility]).toEqual([
    exists,
    sd,
    range,
    visibility,
  ]);
});

test('stream ends .90 and 10 m, springs 12 m off and seen from 8–15 m, posts .80–.95 with .10–.15 extras per gap, paths braid .3', () => {
  expect(defaultDoubt('stream-end')).toMatchObject({ exists: 0.9, rangeMetres: 10, visibility: 'low' });
  for (const kind of ['spring', 'well'] as const) {
    const { exists, positionMetres, rangeMetres, visibility } = defaultDoubt(kind);
    expect([exists, positionMetres, visibility]).toEqual([0.85, 12, 'low']);
    expect(rangeMetres).toBeGreaterThanOrEqual(8);
    expect(rangeMetres).toBeLessThanOrEqual(15);
  }
  const post = defaultDoubt('post');
  expect(post.exists).toBeGreaterThanOrEqual(0.8);
  expect(post.exists).toBeLessThanOrEqual(0.95);
  expect(post.extraPerGap).toBeGreaterThanOrEqual(0.1);
  expect(post.extraPerGap).toBeLessThanOrEqual(0.15);
  expect([post.positionMetres, post.rangeMetres]).toEqual([10, 30]);
  expect(defaultDoubt('path').alike).toBe(0.3);
  expect(defaultDoubt('boulder').alike).toBe(0.3);
});

test('every kind has a doubt within bounds', () => {
  for (const kind of FEATURE_KINDS) {
    const d = defaultDoubt(kind);
    expect(d.exists, kind).toBeGreaterThan(0);
    expect(d.exists, kind).toBeLessThanOrEqual(1);
    expect(d.positionMetres, kind).toBeGreaterThan(0);
    expect(d.rangeMetres, kind).toBeGreaterThan(0);
    expect([0.5, 0.8, 1], kind).toContain(d.contrast);
  }
});

describe('precedence and age', () => {
  test('the task overrides the file, the file the kind', () => {
    expect(doubtOf('wall', {}).exists).toBe(0.97);
    expect(doubtOf('wall', { exists: 0.6, positionMetres: 20 }).positionMetres).toBe(20);
    expect(doubtOf('wall', { exists: 0.6 }, { exists: 0.2 }).exists).toBe(0.2);
  });

  test('man-made things vanish by 1 % a year, fences and forest by 3 %, nature stays', () => {
    const age = { mapDate: '2016-01-01', date: '2026-01-01' };
    // ten years with their leap days
    expect(yearsBetween('2016-01-01', '2026-01-01')).toBeCloseTo(10, 2);
    expect(doubtOf('cairn', {}, {}, age).exists / 0.75).toBeCloseTo(0.99 ** 10, 4);
    expect(doubtOf('fence', {}, {}, age).exists / 0.85).toBeCloseTo(0.97 ** 10, 4);
    expect(doubtOf('forest-edge', {}, {}, age).exists / 0.85).toBeCloseTo(0.97 ** 10, 4);
    expect(doubtOf('stream', {}, {}, age).exists).toBe(0.99);
    expect(decayPerYear('knoll')).toBe(0);
  });

  test('the day it was last seen beats the date of the map', () => {
    const age = { mapDate: '2000-01-01', date: '2026-01-01' };
    expect(doubtOf('fence', { lastSeen: '2026-01-01' }, {}, age).exists).toBe(0.85);
    expect(doubtOf('fence', { lastSeen: '2025' }, {}, age).exists / 0.85).toBeCloseTo(0.97, 3);
    expect(doubtOf('fence', {}, { lastSeen: '2025' }, age).exists / 0.85).toBeCloseTo(0.97, 3);
  });

  test('nothing decays without a day, before its day, or where the task says the chance on the day', () => {
    expect(doubtOf('fence', { lastSeen: '1999' }).exists).toBe(0.85);
    expect(doubtOf('fence', { lastSeen: '2030' }, {}, { date: '2026-01-01' }).exists).toBe(0.85);
    expect(doubtOf('fence', { lastSeen: '1999' }, { exists: 0.4 }, { date: '2026-01-01' }).exists).toBe(0.4);
  });
});

test('springs fail in drought, streams do not', () => {
  expect(existsInWetness('spring', 0.85, 'dry')).toBe(0.2);
  expect(existsInWetness('spring', 0.1, 'dry')).toBe(0.1);
  expect(existsInWetness('spring', 0.85, 'wet')).toBe(0.85);
  expect(existsInWetness('confluence', 0.98, 'dry')).toBe(0.98);
});

test('unmapped trods 2–6 and cairns .5 per km² (common practice, no source)', () => {
  expect(EXTRAS_PER_KM2.trod).toBeGreaterThanOrEqual(2);
  expect(EXTRAS_PER_KM2.trod).toBeLessThanOrEqual(6);
  expect(EXTRAS_PER_KM2.cairn).toBe(0.5);
});
