import type { Candidate } from '../report/report.ts';

/**
 * Ids of the candidates that no other beats: none is as quick at the median and more likely to succeed beyond the sampling
 * interval, or as likely and quicker. Order of the candidates does not matter.
 */
export function unbeatenOf(candidates: readonly Candidate[]): string[] {
  return candidates.filter((c) => !candidates.some((other) => beats(other, c))).map((c) => c.id);
}

function beats(a: Candidate, b: Candidate): boolean {
  const surer = a.success.low > b.success.high;
  const asSure = a.success.share >= b.success.share;
  const quicker = a.minutes.p50 < b.minutes.p50 * 0.98;
  const asQuick = a.minutes.p50 <= b.minutes.p50;
  return (surer && asQuick) || (asSure && quicker);
}

/** Whether two candidates differ beyond what their sampling intervals allow. */
export function differ(a: Candidate, b: Candidate): boolean {
  return a.success.low > b.success.high || b.success.low > a.success.high;
}
