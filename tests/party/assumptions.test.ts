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
