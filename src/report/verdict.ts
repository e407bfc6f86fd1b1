import type { Candidate } from './report.ts';
import type { ClearlySurer } from './unbeaten.ts';
import type { Judged, ReportSentences } from './words.ts';

/** The verdict in counts and plain words, one sentence each; it stands under the sentence of conditions. */
export function verdictOf(
  candidates: readonly Candidate[],
  unbeaten: readonly string[],
  surer: ClearlySurer,
  { verdict: say }: Pick<ReportSentences, 'verdict'>,
): string[] {
  if (candidates.length === 0) return [say.none];
  const surest = byShare(candidates)[0]!;
  const quickest = [...candidates].sort((a, b) => a.minutes.p50 - b.minutes.p50 || compareIds(a, b))[0]!;
  const lines = [say.surest(judged(surest))];
  if (quickest.id !== surest.id) {
    const saved = Math.round(surest.minutes.p50 - quickest.minutes.p50);
    lines.push(say.quickest(judged(quickest), saved, surer(surest, quickest)));
  }
  const rest = candidates.filter(
    (c) => unbeaten.includes(c.id) && c.id !== surest.id && c.id !== quickest.id,
  );
  if (rest.length > 0) lines.push(say.between(rest.map(judged)));
  const falsest = [...candidates].sort((a, b) => b.outcomes.falseFind - a.outcomes.falseFind)[0]!;
  if (falsest.outcomes.falseFind >= 0.02) {
    lines.push(say.wrong(falsest.letter, perHundred(falsest.outcomes.falseFind)));
  }
  const lostMost = [...candidates].sort((a, b) => b.outcomes.lost - a.outcomes.lost)[0]!;
  if (lostMost.outcomes.lost >= 0.02) {
    lines.push(say.lost(lostMost.letter, perHundred(lostMost.outcomes.lost)));
  }
  const near = candidates.filter((c) => c.hazard !== 'not assessed' && c.hazard.share >= 0.02);
  if (near.length > 0) {
    lines.push(say.hazard(near.map((c) => ({ letter: c.letter, count: perHundred(hazardShare(c)) }))));
  }
  if (candidates[0]!.hazard === 'not assessed') lines.push(say.notAssessed);
  return lines;
}

function hazardShare(c: Candidate): number {
  return c.hazard === 'not assessed' ? 0 : c.hazard.share;
}

function byShare(candidates: readonly Candidate[]): Candidate[] {
  return [...candidates].sort(
    (a, b) => b.success.share - a.success.share || a.minutes.p50 - b.minutes.p50 || compareIds(a, b),
  );
}

function compareIds(a: Candidate, b: Candidate): number {
  return a.id < b.id ? -1 : 1;
}

function judged(c: Candidate): Judged {
  return {
    letter: c.letter,
    name: c.name,
    count: perHundred(c.success.share),
    minutes: Math.round(c.minutes.p50),
  };
}

/** Whole counts of a hundred; what is neither none nor all is never rounded to it. */
export function perHundred(share: number): number {
  const n = Math.round(share * 100);
  return n === 0 && share > 0 ? 1 : n === 100 && share < 1 ? 99 : n;
}
