/*
 * Percentiles from 1-second bins: bounded memory for any number of attempts, and the same answer in whatever order and by
 * however many workers the attempts were counted.
 */

/** A day and a bit; longer times fall into the last bin. */
const LAST_SECOND = 100_000;
const FIRST_BINS = 4096;

/** Attempts per whole second. */
export type Histogram = Uint32Array;

export function newHistogram(): Histogram {
  return new Uint32Array(FIRST_BINS);
}

/** Counts one attempt; returns the counts, in more bins where they did not reach so far. */
export function countSeconds(histogram: Histogram, seconds: number): Histogram {
  const bin = Math.round(seconds);
  const at = bin < 0 ? 0 : Math.min(bin, LAST_SECOND);
  const into = withBins(histogram, at + 1);
  into[at]!++;
  return into;
}

/** The same counts in no more bins than are used: what is kept and posted of a few attempts. */
export function trimHistogram(histogram: Histogram): Histogram {
  let used = histogram.length;
  while (used > 0 && histogram[used - 1] === 0) used--;
  return histogram.slice(0, used);
}

/** Adds counts; returns them, in more bins where `into` had fewer than `from`. */
export function addHistogram(into: Histogram, from: Histogram): Histogram {
  const sum = withBins(into, from.length);
  for (let i = 0; i < from.length; i++) sum[i]! += from[i]!;
  return sum;
}

function withBins(histogram: Histogram, bins: number): Histogram {
  if (bins <= histogram.length) return histogram;
  const more = new Uint32Array(Math.max(bins, Math.min(2 * histogram.length, LAST_SECOND + 1)));
  more.set(histogram);
  return more;
}

export function countOf(histogram: Histogram): number {
  let n = 0;
  for (let i = 0; i < histogram.length; i++) n += histogram[i]!;
  return n;
}

/** The least whole second by which at least the share p of all attempts is over (nearest rank). NaN without attempts. */
export function percentileSeconds(histogram: Histogram, p: number): number {
  const n = countOf(histogram);
  if (n === 0) return Number.NaN;
  const rank = Math.max(1, Math.ceil(p * n));
  let seen = 0;
  for (let i = 0; i < histogram.length; i++) {
    seen += histogram[i]!;
    if (seen >= rank) return i;
  }
  return histogram.length - 1;
}

/** Mean in seconds of the binned times; exact in its sums, so free of order. NaN without attempts. */
export function meanSeconds(histogram: Histogram): number {
  let n = 0;
  let sum = 0;
  for (let i = 0; i < histogram.length; i++) {
    n += histogram[i]!;
    sum += i * histogram[i]!;
  }
  return n === 0 ? Number.NaN : sum / n;
}
