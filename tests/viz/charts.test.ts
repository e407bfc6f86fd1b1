import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Outcome } from '../../src/report/report.ts';
import { OUTCOMES } from '../../src/report/report.ts';
import { groundMet } from '../../viz/charts/ground-met.ts';
import { hundredArrays, hundredSquares } from '../../viz/charts/hundred.ts';
import { timeSuccess } from '../../viz/charts/time-success.ts';
import { newDocument } from '../../viz/theme/node-document.ts';
import { sampleReport } from '../figures/sample-report.ts';

test('100 squares are always 100, and each within one of its share', () => {
  const shares = fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 7, maxLength: 7 });
  fc.assert(
    fc.property(shares, (parts) => {
      const total = parts.reduce((a, b) => a + b, 0);
      fc.pre(total > 0);
      const outcomes = Object.fromEntries(OUTCOMES.map((o, i) => [o, parts[i]! / total])) as Record<
        Outcome,
        number
      >;
      const counts = hundredSquares(outcomes);
      expect(Object.values(counts).reduce((a, b) => a + b, 0)).toBe(100);
      for (const o of OUTCOMES) expect(Math.abs(counts[o] - outcomes[o] * 100)).toBeLessThan(1);
    }),
  );
});

test('an array shows as many full squares as are found', () => {
  const { candidates, unbeaten } = sampleReport({ routes: 1 });
  const svg = hundredArrays({ candidates, unbeaten }, { document: newDocument(), width: 860, id: 'x' });
  const panel = svg.querySelector('g[data-route="A"]')!;
  const drawn = (kind: string) =>
    (panel.querySelector(`path.${kind}`)?.getAttribute('d')?.match(/M/g) ?? []).length;
  expect([drawn('cleanHit.full'), drawn('foundBySearch.full'), drawn('lost')]).toEqual([71, 12, 2]);
  expect(candidates[0]!.outcomes).toMatchObject({ cleanHit: 0.71, foundBySearch: 0.12, lost: 0.02 });
});

test('the thin bar of assumptions is there once they are varied, and only then', () => {
  const bars = (varied: boolean) => {
    const { candidates, unbeaten } = sampleReport({ varied });
    const svg = timeSuccess({ candidates, unbeaten }, { document: newDocument(), width: 860, id: 'x' });
    return svg.querySelectorAll('line.assumption').length;
  };
  expect(bars(false)).toBe(0);
  expect(bars(true)).toBe(6);
});

test('bars stand at the place of their numbers', () => {
  const { candidates, unbeaten } = sampleReport({ trials: 100 });
  const svg = timeSuccess({ candidates, unbeaten }, { document: newDocument(), width: 860, id: 'x' });
  const zero = Number(svg.querySelector('line.axis')!.getAttribute('y1'));
  const lines = [...svg.querySelectorAll('line.grid')].map((l) => Number(l.getAttribute('y1')));
  const perShare = (zero - Math.min(...lines)) / 1;
  for (const c of candidates) {
    const bar = svg.querySelector(`g[data-route="${c.letter}"] rect.sampling`)!;
    const [y, tall] = [Number(bar.getAttribute('y')), Number(bar.getAttribute('height'))];
    expect((zero - y) / perShare).toBeCloseTo(c.success.high, 2);
    expect((zero - y - tall) / perShare).toBeCloseTo(c.success.low, 2);
  }
  expect(svg.querySelectorAll('.badge.filled')).toHaveLength(unbeaten.length);
});

test('ground met: a line through an area, a hole in it, and past its end', () => {
  const square = (a: number, b: number) =>
    [
      [a, -50],
      [b, -50],
      [b, 50],
      [a, 50],
      [a, -50],
    ] as const;
  const marsh = {
    id: 'm',
    kind: 'marsh',
    name: null,
    exists: 1,
    positionMetres: 1,
    geometry: { type: 'area', rings: [square(200, 800), square(400, 500)] },
  } as const;
  expect(
    groundMet(
      [
        [0, 0],
        [1000, 0],
      ],
      [marsh],
    ),
  ).toEqual([
    { kind: 'marsh', from: 200, to: 400 },
    { kind: 'marsh', from: 500, to: 800 },
  ]);
});
