import { expect, test } from 'vitest';
import type { Conditions } from '../../src/conditions/conditions.ts';
import { assumptionsOf, assumptionsOfDay } from '../../src/party/assumptions.ts';
import { DEFAULT_PARTY, skillOf } from '../../src/party/presets.ts';
import type { Assumption as ReportAssumption } from '../../src/report/report.ts';

const DAY: Conditions = {
  visibility: { below: 5000, above: 120, cloudBase: 480 },
  ground: 'wet',
  light: 'day',
  wind: { metresPerSecond: 4, fromDegrees: 240 },
  date: null,
};

test('every parameter of a skill is an assumption, said in words, and fits the report', () => {
  const all: ReportAssumption[] = assumptionsOf(DEFAULT_PARTY);
  expect(all).toHaveLength(Object.keys(DEFAULT_PARTY.set).length);
  expect(new Set(all.map((a) => a.name)).size).toBe(all.length);
  expect(all.every((a) => a.mark === 'common practice' && a.source.includes('no published source'))).toBe(
    true,
  );
  expect(all.find((a) => a.name.startsWith('bearing'))?.value).toBe('2.5°');
  expect(all.find((a) => a.name.startsWith('wander'))?.value).toContain('3.95 m per √(100 m)');
  expect(all.find((a) => a.name.startsWith('height'))?.value).toBe('−2 ± 3 m per 100 m on a slope of 20°');
});

test('in yards, feet and miles the same is said in other units', () => {
  const metric = assumptionsOf(DEFAULT_PARTY);
  const other = assumptionsOf(DEFAULT_PARTY, { language: 'en', units: 'imperial', bearings: 'degrees' });
  const value = (all: ReportAssumption[], name: string) => all.find((a) => a.name.startsWith(name))!.value;
  // −2 m to 100 m is a fall of 2 in 100: 6 ft to the 300 ft of 100 yd
  expect(value(other, 'height')).toBe('−6 ± 9 ft per 100 yd on a slope of 20°');
  // a wander of σ over 100 m is σ·√(91.44/100) over 100 yd
  expect(Number.parseFloat(value(other, 'wander'))).toBeCloseTo((3.95 * Math.sqrt(0.9144)) / 0.9144, 1);
  expect(value(other, 'wander')).toContain('every 55 yd');
  const pace = Number.parseFloat(value(metric, 'searching'));
  expect(Number.parseFloat(value(other, 'searching'))).toBeCloseTo(pace / 0.9144, 1);
  expect(other.map((a) => `${a.name} ${a.value}`).join(' ')).not.toMatch(/\d k?m\b|\d m\/min/);
  expect(other.map((a) => a.mark)).toEqual(metric.map((a) => a.mark));
});

test('a parameter that the task sets is marked as given, with what it replaces', () => {
  const party = { ...DEFAULT_PARTY, set: { ...skillOf('competent'), bearingDegrees: 3, wanderMetres: 0 } };
  const given = assumptionsOf(party).filter((a) => a.mark === 'given in the task');
  expect(given.map((a) => a.value)).toEqual(['3°', '0 m per √(100 m)']);
  expect(given[0]?.source).toContain('2.5°');
});

test('the multipliers of the day are said for both sides of the cloud base', () => {
  const rows = assumptionsOfDay(DAY);
  expect(rows.map((r) => r.name)).toEqual([
    'multipliers of the day below cloud, off the path',
    'multipliers of the day in cloud, off the path',
  ]);
  expect(rows[1]?.value).toContain('bearing error × 1.43');
  expect(assumptionsOfDay({ ...DAY, visibility: { ...DAY.visibility, cloudBase: null } })).toHaveLength(1);
});
