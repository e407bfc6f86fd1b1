/**
 * The known name that a misspelt one most likely stands for; null when none is near.
 * Near is: the same but for case, hyphens, underscores and spaces, or at most a third of its letters wrong.
 */
export function didYouMean(given: string, known: Iterable<string>): string | null {
  if (given === '' || given.length > 80) return null;
  const wanted = plain(given);
  let best: string | null = null;
  let least = Math.max(1, Math.floor(given.length / 3)) + 1;
  for (const name of known) {
    if (Math.abs(name.length - given.length) > least + 2) continue;
    const candidate = plain(name);
    const edits = candidate === wanted ? 0 : editsBetween(wanted, candidate, least);
    if (edits < least) {
      best = name;
      least = edits;
      if (edits === 0) break;
    }
  }
  return best;
}

/** "; did you mean x?" or nothing. */
export function suggestion(given: string, known: Iterable<string>): string {
  const name = didYouMean(given, known);
  return name === null ? '' : `; did you mean ${name}?`;
}

function plain(name: string): string {
  return name.toLowerCase().replace(/[-_\s]/g, '');
}

/** Insertions, deletions, substitutions and swaps of neighbours between two words (optimal string alignment); `limit` when there are as many or more. */
function editsBetween(a: string, b: string, limit: number): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let lowest = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let edits = Math.min(above[j]! + 1, row[j - 1]! + 1, above[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        edits = Math.min(edits, before[j - 2]! + 1);
      }
      row.push(edits);
      if (edits < lowest) lowest = edits;
    }
    // A swap can reach back over one row, so the row above must be hopeless too.
    if (lowest >= limit && Math.min(...above) >= limit) return limit;
    before = above;
    above = row;
  }
  return Math.min(above[b.length]!, limit);
}
