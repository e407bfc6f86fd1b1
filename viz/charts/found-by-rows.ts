import type { Candidate } from '../../src/report/report.ts';
import { hundredText } from '../theme/words.ts';

/** The curves as rows of a table: minutes, then how many of 100 each route has found the target by. */
export function foundByRows(candidates: readonly Candidate[]): string[][] {
  const last = Math.max(0, ...candidates.map((c) => c.foundBy[c.foundBy.length - 1]?.[0] ?? 0));
  const step = last > 120 ? 20 : last > 50 ? 10 : 5;
  return Array.from({ length: Math.floor(last / step) }, (_, i) => {
    const minutes = (i + 1) * step;
    return [String(minutes), ...candidates.map((c) => hundredText(shareBy(c.foundBy, minutes)))];
  });
}

function shareBy(curve: readonly (readonly [number, number])[], minutes: number): number {
  let share = 0;
  for (const [m, s] of curve) {
    if (m > minutes) break;
    share = s;
  }
  return share;
}
