import type { Candidate, Difference, Report, Split } from '../../../src/report/report.ts';
import { table } from '../../theme/table.ts';
import type { Writing } from '../page-parts.ts';
import { letter, paragraph, section } from '../page-parts.ts';
import type { ReportWords } from '../words.ts';

/** What one change, or one look beforehand, would do; null when nothing of the kind was tried. */
export function whatHelpsSection(writing: Writing): HTMLElement | null {
  const { report, make, words } = writing;
  const tried = report.candidates.filter((c) => c.changes !== undefined);
  const parts = [
    ...changesPart(writing, tried),
    ...leaningsPart(writing),
    ...checksPart(writing),
    ...alikePart(writing),
  ];
  return parts.length === 0 ? null : section(make, 'what-helps', words.helps.heading, ...parts);
}

function changesPart(writing: Writing, tried: readonly Candidate[]): HTMLElement[] {
  if (tried.length === 0) return [];
  const { make, words } = writing;
  const { helps: say } = words;
  const rows = tried.flatMap((c) =>
    c.changes!.helped.map((h) => [
      letter(writing, c),
      h.says,
      change(h.success, 100, words),
      change(h.minutes, 1, words),
    ]),
  );
  const without = tried.filter((c) => c.changes!.helped.length === 0);
  const looked = tried.reduce((sum, c) => sum + c.changes!.looked, 0);
  const parts: HTMLElement[] = [];
  if (rows.length > 0) {
    const [route, what, finds, minutes] = say.heads;
    parts.push(
      paragraph(make, say.changes(looked)),
      table(
        make,
        say.caption,
        [{ head: route }, { head: what }, { head: finds, figures: true }, { head: minutes, figures: true }],
        rows,
        { blocks: true },
      ),
    );
  }
  for (const c of without) parts.push(paragraph(make, say.none(c.letter, c.changes!.looked)));
  return parts;
}

function leaningsPart(writing: Writing): HTMLElement[] {
  const { report, make, words } = writing;
  const rows = report.candidates.flatMap((c) =>
    (c.leansOn ?? []).map((l) => [
      letter(writing, c),
      l.name,
      `${Math.round(100 * l.exists)}`,
      found(l.there, words),
      found(l.gone, words),
    ]),
  );
  if (rows.length === 0) return [];
  const [route, what, days, there, gone] = words.helps.leansHeads;
  return [
    table(
      make,
      words.helps.leans,
      [
        { head: route },
        { head: what },
        { head: days, figures: true },
        { head: there, figures: true },
        { head: gone, figures: true },
      ],
      rows,
      { blocks: true },
    ),
  ];
}

function checksPart({ report, make, words }: Writing): HTMLElement[] {
  const { helps: say } = words;
  if (report.worthChecking !== undefined) {
    return report.worthChecking.map((w) => {
      const [there, gone, unknowing] = [w.ifThere, w.ifGone, w.unknowing].map((id) => letterOf(report, id));
      const interval = say.to(plain(100 * w.gain.low), plain(100 * w.gain.high));
      const gain = plain(100 * w.gain.difference);
      return paragraph(make, say.check(w.name, there!, gone!, unknowing!, gain, interval));
    });
  }
  const leans = report.candidates.some((c) => (c.leansOn ?? []).length > 0);
  return leans ? [paragraph(make, say.noCheck)] : [];
}

function alikePart({ report, make, words }: Writing): HTMLElement[] {
  return report.candidates
    .filter((c) => c.alike !== undefined)
    .map((c) => paragraph(make, words.helps.alike(c.letter, c.alike!)));
}

function letterOf(report: Report, id: string): string {
  return report.candidates.find((c) => c.id === id)?.letter ?? id;
}

/** "+7 (4 to 10)": a difference with its interval, in whole units. */
function change({ difference, low, high }: Difference, unit: number, { helps: say }: ReportWords): string {
  return `${signed(difference * unit)} (${say.to(plain(low * unit), plain(high * unit))})`;
}

function found({ share, low, high }: Split, { helps: say }: ReportWords): string {
  return `${plain(100 * share)} (${say.to(plain(100 * low), plain(100 * high))})`;
}

function signed(x: number): string {
  const n = Math.round(x);
  return n > 0 ? `+${n}` : plain(x);
}

function plain(x: number): string {
  const n = Math.round(x);
  return n < 0 ? `−${-n}` : String(Math.abs(n));
}
