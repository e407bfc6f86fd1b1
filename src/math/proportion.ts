/** Normal quantile of 97.5 %: two-sided 95 % intervals. */
export const Z95 = 1.959963984540054;

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * Interval of a share from `hits` in `trials` (trials > 0), 95 % by default.
 * (p + z²/2n ± z·√(p(1−p)/n + z²/4n²)) / (1 + z²/n)  [Wilson EB (1927) JASA 22:209–212]
 */
export function wilson(hits: number, trials: number, z = Z95): Interval {
  const p = hits / trials;
  const zz = z * z;
  const middle = p + zz / (2 * trials);
  const half = z * Math.sqrt((p * (1 - p)) / trials + zz / (4 * trials * trials));
  const scale = 1 + zz / trials;
  return {
    // at the ends the formula is exact and rounding is not
    low: hits === 0 ? 0 : (middle - half) / scale,
    high: hits === trials ? 1 : (middle + half) / scale,
  };
}

/** Trials that both, only the first, only the second or neither of two candidates succeeded in, with the same draws. */
export interface Paired {
  readonly both: number;
  readonly onlyFirst: number;
  readonly onlySecond: number;
  readonly neither: number;
}

/**
 * Difference of two shares from the same trials, first minus second, with its 95 % interval: Wilson limits joined by their
 * correlation φ [Newcombe RG (1998) Statistics in Medicine 17:2635–2650, method 10].
 */
export function pairedDifference(counts: Paired, z = Z95): Interval & { readonly difference: number } {
  const { both: a, onlyFirst: b, onlySecond: c, neither: d } = counts;
  const n = a + b + c + d;
  const p1 = (a + b) / n;
  const p2 = (a + c) / n;
  const first = wilson(a + b, n, z);
  const second = wilson(a + c, n, z);
  const phi = correlation(a, b, c, d);
  const difference = p1 - p2;
  return {
    difference,
    low: difference - joined(p1 - first.low, second.high - p2, phi),
    high: difference + joined(first.high - p1, p2 - second.low, phi),
  };
}

function joined(x: number, y: number, phi: number): number {
  return Math.sqrt(Math.max(0, x * x - 2 * phi * x * y + y * y));
}

/** φ of a 2 × 2 table, a positive one taken n/2 nearer to 0 in its numerator; 0 where a margin is empty. */
function correlation(a: number, b: number, c: number, d: number): number {
  const margins = (a + b) * (c + d) * (a + c) * (b + d);
  if (margins === 0) return 0;
  const cross = a * d - b * c;
  const numerator = cross > 0 ? Math.max(0, cross - (a + b + c + d) / 2) : cross;
  return numerator / Math.sqrt(margins);
}

/** Trials needed for an interval of ± `half` around a share p: n = ⌈z²·p(1−p)/h²⌉ (large-sample form). */
export function trialsFor(p: number, half: number, z = 1.96): number {
  // the product is rounded first, so that a whole number is not pushed to the next by its last bit
  return Math.ceil(Math.round(((z * z * p * (1 - p)) / (half * half)) * 1e6) / 1e6);
}
