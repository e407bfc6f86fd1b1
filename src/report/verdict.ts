import type { Candidate } from './report.ts';
import type { ClearlySurer } from './unbeaten.ts';

/** The verdict in counts and plain words, one sentence each; it stands under the sentence of conditions. */
export function verdictOf(
  candidates: readonly Candidate[],
  unbeaten: readonly string[],
  surer: ClearlySurer,
): string[] {
  if (candidates.length === 0) return ['No route was drawn and none was found.'];
  const surest = byShare(candidates)[0]!;
  const quickest = [...candidates].sort((a, b) => a.minutes.p50 - b.minutes.p50 || compareIds(a, b))[0]!;
  const lines = [
    `By ${surest.letter}, ${quoted(surest)}, ${counted(surest)} such parties find the target, under these assumptions; half of all attempts end within ${minutes(surest)} minutes.`,
  ];
  if (quickest.id !== surest.id) {
    const saved = Math.round(surest.minutes.p50 - quickest.minutes.p50);
    const how = saved >= 1 ? `ends about ${saved} minutes sooner` : 'takes about as long';
    lines.push(
      surer(surest, quickest)
        ? `${quickest.letter}, ${quoted(quickest)}, ${how}; by it ${counted(quickest)} find the target.`
        : `${quickest.letter}, ${quoted(quickest)}, ${how} with no clear difference in success (${counted(quickest)}): choose by consequences.`,
    );
  }
  const rest = candidates.filter(
    (c) => unbeaten.includes(c.id) && c.id !== surest.id && c.id !== quickest.id,
  );
  if (rest.length > 0) {
    lines.push(
      `Between them, neither beaten in both: ${rest.map((c) => `${c.letter} (${counted(c)}, ${minutes(c)} min)`).join(', ')}.`,
    );
  }
  const falsest = [...candidates].sort((a, b) => b.outcomes.falseFind - a.outcomes.falseFind)[0]!;
  if (falsest.outcomes.falseFind >= 0.02) {
    lines.push(
      `On ${falsest.letter} about ${perHundred(falsest.outcomes.falseFind)} of 100 declare the wrong thing.`,
    );
  }
  const lostMost = [...candidates].sort((a, b) => b.outcomes.lost - a.outcomes.lost)[0]!;
  if (lostMost.outcomes.lost >= 0.02) {
    lines.push(`On ${lostMost.letter} about ${perHundred(lostMost.outcomes.lost)} of 100 end lost.`);
  }
  const near = candidates.filter((c) => c.hazard !== 'not assessed' && c.hazard.share >= 0.02);
  if (near.length > 0) {
    const said = near.map((c) => `${c.letter} ${perHundred(hazardShare(c))}`).join(', ');
    lines.push(`Of 100, so many come too near a mapped drop or on to too steep ground: ${said}.`);
  }
  if (candidates[0]!.hazard === 'not assessed')
    lines.push('Hazards are not assessed: the data map none here.');
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

function quoted(c: Candidate): string {
  return `“${c.name}”`;
}

function counted(c: Candidate): string {
  return `about ${perHundred(c.success.share)} of 100`;
}

function minutes(c: Candidate): number {
  return Math.round(c.minutes.p50);
}

/** Whole counts of a hundred; what is neither none nor all is never rounded to it. */
export function perHundred(share: number): number {
  const n = Math.round(share * 100);
  return n === 0 && share > 0 ? 1 : n === 100 && share < 1 ? 99 : n;
}
