import { expect, test } from 'vitest';
import type { Assumption as ReportAssumption } from '../../src/report/report.ts';
import { assumptionsOfSeeing } from '../../src/seeing/assumptions.ts';
import { SWEEP_PER_RANGE } from '../../src/seeing/sweep.ts';

test('how a thing is seen is said with its mark, and the two laws are told apart', () => {
  const definite: ReportAssumption[] = assumptionsOfSeeing('definite');
  const lateral = assumptionsOfSeeing('lateral');
  expect(definite.map((a) => a.name)).toEqual(lateral.map((a) => a.name));
  expect(definite[1]?.value).not.toBe(lateral[1]?.value);
  for (const factor of Object.values(SWEEP_PER_RANGE)) expect(definite[0]?.value).toContain(String(factor));
  expect(definite.filter((a) => a.mark === 'published').map((a) => a.source.slice(0, 11))).toEqual([
    'Koester RJ ',
  ]);
});

test('nothing is assumed without a name, a value and where it is from', () => {
  for (const law of ['definite', 'lateral'] as const)
    for (const a of assumptionsOfSeeing(law)) {
      expect(['published', 'common practice']).toContain(a.mark);
      for (const words of [a.name, a.value, a.source]) expect(words.length).toBeGreaterThan(8);
    }
});
