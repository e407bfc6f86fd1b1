import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pairedDifference, wilson } from '../../src/math/proportion.ts';

// values of published tables are in tests/published/chance.test.ts

test('an interval holds its share, lies in 0..1 and narrows with trials', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 5000 }), fc.double({ min: 0, max: 1, noNaN: true }), (n, p) => {
      const hits = Math.round(n * p);
      const { low, high } = wilson(hits, n);
      expect(low).toBeGreaterThanOrEqual(0);
      expect(high).toBeLessThanOrEqual(1);
      expect(low).toBeLessThanOrEqual(hits / n);
      expect(high).toBeGreaterThanOrEqual(hits / n);
      const more = wilson(4 * hits, 4 * n);
      expect(more.high - more.low).toBeLessThan(high - low);
    }),
  );
});

describe('difference of shares from the same trials', () => {
  const cells = fc.tuple(
    fc.integer({ min: 0, max: 300 }),
    fc.integer({ min: 0, max: 300 }),
    fc.integer({ min: 0, max: 300 }),
    fc.integer({ min: 1, max: 300 }),
  );

  test('swapping the two turns the sign, and the interval holds the difference', () => {
    fc.assert(
      fc.property(cells, ([both, onlyFirst, onlySecond, neither]) => {
        const one = pairedDifference({ both, onlyFirst, onlySecond, neither });
        const two = pairedDifference({ both, onlyFirst: onlySecond, onlySecond: onlyFirst, neither });
        expect(two.difference).toBeCloseTo(-one.difference, 12);
        expect(two.low).toBeCloseTo(-one.high, 9);
        expect(two.high).toBeCloseTo(-one.low, 9);
        expect(one.low).toBeLessThanOrEqual(one.difference);
        expect(one.high).toBeGreaterThanOrEqual(one.difference);
        expect(one.low).toBeGreaterThanOrEqual(-1);
        expect(one.high).toBeLessThanOrEqual(1);
      }),
    );
  });

  test('trials that go together make it narrower than trials that go apart', () => {
    const width = (c: Parameters<typeof pairedDifference>[0]) => {
      const { low, high } = pairedDifference(c);
      return high - low;
    };
    const together = { both: 500, onlyFirst: 50, onlySecond: 30, neither: 420 };
    const apart = { both: 300, onlyFirst: 250, onlySecond: 230, neither: 220 };
    expect(width(together)).toBeLessThan(0.5 * width(apart));
  });

  test('covers the truth about as often as it says', () => {
    // a small linear congruential generator: the test must not hang on chance
    let state = 7;
    const uniform = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return state / 2 ** 32;
    };
    let covered = 0;
    const rounds = 1500;
    for (let k = 0; k < rounds; k++) {
      const c = [0, 0, 0, 0];
      for (let i = 0; i < 120; i++) {
        const u = uniform();
        c[u < 0.6 ? 0 : u < 0.75 ? 1 : u < 0.82 ? 2 : 3]!++;
      }
      const { low, high } = pairedDifference({
        both: c[0]!,
        onlyFirst: c[1]!,
        onlySecond: c[2]!,
        neither: c[3]!,
      });
      if (low <= 0.08 && high >= 0.08) covered++;
    }
    expect(covered / rounds).toBeGreaterThan(0.93);
    expect(covered / rounds).toBeLessThan(0.985);
  });
});
