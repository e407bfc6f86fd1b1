import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addHistogram,
  countOf,
  countSeconds,
  meanSeconds,
  newHistogram,
  percentileSeconds,
} from '../../src/math/quantile.ts';

function of(seconds: readonly number[]) {
  let h = newHistogram();
  for (const s of seconds) h = countSeconds(h, s);
  return h;
}

describe('percentiles from one-second bins', () => {
  test('are the nearest rank of the sorted whole seconds', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 20_000 }), { minLength: 1, maxLength: 60 }),
        fc.constantFrom(0.1, 0.5, 0.9, 1),
        (seconds, p) => {
          const sorted = [...seconds].sort((a, b) => a - b);
          expect(percentileSeconds(of(seconds), p)).toBe(sorted[Math.ceil(p * sorted.length) - 1]);
        },
      ),
      { numRuns: 30 },
    );
  });

  test('do not depend on the order, nor on who counted', () => {
    const all = [600, 640.4, 640.6, 1200, 30];
    const shards = addHistogram(of(all.slice(3)), of(all.slice(0, 3)));
    expect(shards).toEqual(of([...all].reverse()));
    expect(countOf(shards)).toBe(5);
    expect(meanSeconds(shards)).toBe((600 + 640 + 641 + 1200 + 30) / 5);
  });

  test('what is longer than a day falls into the last bin, nothing gives no number', () => {
    expect(percentileSeconds(of([1e9]), 0.5)).toBe(100_000);
    expect(percentileSeconds(of([-5]), 0.5)).toBe(0);
    expect(percentileSeconds(newHistogram(), 0.5)).toBeNaN();
    expect(meanSeconds(newHistogram())).toBeNaN();
  });
});
