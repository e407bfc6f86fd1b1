import quantile from '@stdlib/stats-base-dists-normal-quantile';
import { describe, expect, test } from 'vitest';
import { nextNormal, normalOf } from '../../src/math/normal.ts';
import { newStream, startStream } from '../../src/math/random.ts';

describe('normal variates by inversion', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1 and Abramowitz & Stegun 26.2, from memory; the digits agree with stdlib
  test.each([
    [0.5, 0],
    [0.75, 0.6744898],
    [0.975, 1.959964],
    [0.99, 2.3263479],
    [0.999, 3.0902323],
    [0.9999, 3.7190165],
    [0.99999, 4.2648908],
  ])('the quantile of %d', (u, z) => {
    expect(Math.abs(normalOf(u) - z)).toBeLessThan(4e-5);
    expect(Math.abs(normalOf(1 - u) + z)).toBeLessThan(4e-5);
  });

  test('the tables stay within 4e-5 of the exact quantile, in the tails and where they meet', () => {
    let worst = 0;
    for (let k = 1; k < 200_000; k++) {
      const u = k / 200_000;
      worst = Math.max(worst, Math.abs(normalOf(u) - quantile(u, 0, 1)));
      const deep = u / 50;
      worst = Math.max(worst, Math.abs(normalOf(deep) - quantile(deep, 0, 1)));
    }
    for (const edge of [1 / 64, 1 / 4096])
      for (const by of [-1e-9, 0, 1e-9]) {
        worst = Math.max(worst, Math.abs(normalOf(edge + by) - quantile(edge + by, 0, 1)));
        worst = Math.max(worst, Math.abs(normalOf(1 - edge - by) - quantile(1 - edge - by, 0, 1)));
      }
    expect(worst).toBeLessThan(4e-5);
  });

  test('a stream of them has mean 0, variance 1 and the tails of a normal distribution', () => {
    const stream = newStream();
    startStream(stream, 7, 0, 1, 0);
    const n = 400_000;
    let sum = 0;
    let squares = 0;
    let beyond = 0;
    for (let i = 0; i < n; i++) {
      const z = nextNormal(stream);
      sum += z;
      squares += z * z;
      if (Math.abs(z) > 3) beyond++;
    }
    expect(Math.abs(sum / n)).toBeLessThan(4 / Math.sqrt(n));
    expect(Math.abs(squares / n - 1)).toBeLessThan(4 * Math.sqrt(2 / n));
    // 2·(1 − Φ(3)) = .0026998
    expect(Math.abs(beyond / n - 0.0026998)).toBeLessThan(4 * Math.sqrt(0.0027 / n));
  });
});
