import type { Candidate } from './report.ts';

/** Whether the first of two candidates is clearly more likely to succeed. */
export type ClearlySurer = (a: Candidate, b: Candidate) => boolean;

/**
 * Surer beyond both intervals: the sampling intervals lie apart, and the order is the same in every setting of the
 * assumptions. `sharesOf` gives a candidate's share in each setting; the settings are common to all candidates.
 */
export function clearlySurer(sharesOf: (c: Candidate) => readonly number[]): ClearlySurer {
  return (a, b) => {
    if (a.success.low <= b.success.high) return false;
    const other = sharesOf(b);
    return sharesOf(a).every((share, i) => share >= other[i]!);
  };
}

/**
 * Ids of the candidates that no other beats: none is at least as quick at the median and clearly surer, or as sure and
 * quicker by more than 2 %. Order of the candidates does not matter.
 */
export function unbeatenOf(candidates: readonly Candidate[], surer: ClearlySurer): string[] {
  const beats = (a: Candidate, b: Candidate): boolean =>
    (surer(a, b) && a.minutes.p50 <= b.minutes.p50) ||
    (a.success.share >= b.success.share && a.minutes.p50 < b.minutes.p50 * 0.98);
  return candidates.filter((c) => !candidates.some((other) => beats(other, c))).map((c) => c.id);
}
