import type { Candidate, Difference, Report, Split } from '../../../src/report/report.ts';
import { table } from '../../theme/table.ts';
import { listed } from '../../theme/words.ts';
import type { Writing } from '../page-parts.ts';
import { letter, paragraph, section } from '../page-parts.ts';

/** What one change, or one look beforehand, would do; null when nothing of the kind was tried. */
export function whatHelpsSection(writing: Writing): HTMLElement | null {
  const { report, make } = writing;
  const tried = report.candidates.filter((c) => c.changes !== undefined);
  const parts = [
    ...changesPart(writing, tried),
    ...leaningsPart(writing),
    ...checksPart(writing),
    ...alikePart(writing),
  ];
  return parts.length === 0 ? null : section(make, 'what-helps', 'What would help', ...parts);
}

function changesPart({ report, make }: Writing, tried: readonly Candidate[]): HTMLElement[] {
  if (tried.length === 0) return [];
  const rows = tried.flatMap((c) =>
    c.changes!.helped.map((h) => [
      letter(make, report, c),
      h.says,
      change(h.success, 100),
      change(h.minutes, 1),
    ]),
  );
  const without = tried.filter((c) => c.changes!.helped.length === 0);
  const looked = tried.reduce((sum, c) => sum + c.changes!.looked, 0);
  const parts: HTMLElement[] = [];
  if (rows.length > 0) {
    parts.push(
      paragraph(
        make,
        `One thing done otherwise, the rest as it is, walked by the same parties on the same days. ${looked} changes were looked at; those that help beyond the noise are listed, with the interval of the difference.`,
      ),
      table(
        make,
        'One change that helps',
        [
          { head: 'route' },
          { head: 'change' },
          { head: 'finds of 100', figures: true },
          { head: 'mean minutes', figures: true },
        ],
        rows,
        { blocks: true },
      ),
    );
  }
  for (const c of without) {
    parts.push(
      paragraph(
        make,
        `${c.letter}: none of the ${c.changes!.looked} changes looked at helps beyond the noise.`,
      ),
    );
  }
  return parts;
}

function leaningsPart({ report, make }: Writing): HTMLElement[] {
  const rows = report.candidates.flatMap((c) =>
    (c.leansOn ?? []).map((l) => [
      letter(make, report, c),
      l.name,
      `${Math.round(100 * l.exists)}`,
      found(l.there),
      found(l.gone),
    ]),
  );
  if (rows.length === 0) return [];
  return [
    table(
      make,
      'Finds of 100 where something doubtful is there, and where it is gone',
      [
        { head: 'route' },
        { head: 'leans on' },
        { head: 'there on days of 100', figures: true },
        { head: 'where it is there', figures: true },
        { head: 'where it is gone', figures: true },
      ],
      rows,
      { blocks: true },
    ),
  ];
}

function checksPart({ report, make }: Writing): HTMLElement[] {
  if (report.worthChecking !== undefined) {
    return report.worthChecking.map((w) =>
      paragraph(
        make,
        `Worth a look or a call beforehand: ${w.name}. If it is there take ${letterOf(report, w.ifThere)}, if not ${letterOf(report, w.ifGone)}; without knowing ${letterOf(report, w.unknowing)} finds most. Choosing by the answer finds about ${plain(100 * w.gain.difference)} more of 100 (${plain(100 * w.gain.low)} to ${plain(100 * w.gain.high)}).`,
      ),
    );
  }
  const leans = report.candidates.some((c) => (c.leansOn ?? []).length > 0);
  return leans
    ? [
        paragraph(
          make,
          'To know beforehand whether one of these is there would not change which route to take, as far as these attempts tell.',
        ),
      ]
    : [];
}

function alikePart({ report, make }: Writing): HTMLElement[] {
  return report.candidates
    .filter((c) => c.alike !== undefined)
    .map((c) => paragraph(make, `The search also proposes ${c.letter}: ${listed(c.alike!)}.`));
}

function letterOf(report: Report, id: string): string {
  return report.candidates.find((c) => c.id === id)?.letter ?? id;
}

/** "+7 (4 to 10)": a difference with its interval, in whole units. */
function change({ difference, low, high }: Difference, unit: number): string {
  return `${signed(difference * unit)} (${plain(low * unit)} to ${plain(high * unit)})`;
}

function found({ share, low, high }: Split): string {
  return `${Math.round(100 * share)} (${Math.round(100 * low)} to ${Math.round(100 * high)})`;
}

function signed(x: number): string {
  const n = Math.round(x);
  return n > 0 ? `+${n}` : plain(x);
}

function plain(x: number): string {
  const n = Math.round(x);
  return n < 0 ? `−${-n}` : String(Math.abs(n));
}
