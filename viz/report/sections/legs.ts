import type { Candidate, Reason, ReportLeg } from '../../../src/report/report.ts';
import { REASONS } from '../../../src/report/report.ts';
import { legStrip, sharedHeights } from '../../charts/strip.ts';
import type { Column } from '../../theme/table.ts';
import { table } from '../../theme/table.ts';
import {
  bearing,
  hundredText,
  ofHundred,
  REASON_NAMES,
  TECHNIQUE_NAMES,
  thousands,
} from '../../theme/words.ts';
import { conditionsLine } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, letter, paragraph, section } from '../page-parts.ts';

/** Where parties leave the line: every route drawn out leg by leg, with its table. */
export function legsSection(writing: Writing): HTMLElement {
  const { report, make } = writing;
  const fullMetres = Math.max(1, ...report.candidates.map((c) => c.distanceMetres));
  const heights = sharedHeights(report.candidates);
  return section(
    make,
    'legs',
    'Where parties leave the line',
    conditionsLine(writing),
    ...report.candidates.map((c) => {
      const id = `strip-${c.letter}`;
      const data = {
        candidate: c,
        features: report.features,
        fullMetres,
        heights,
        cloudBaseMetres: report.conditions.visibility.cloudBase,
      };
      return make(
        'article',
        {
          class: 'route-part',
          id: `route-${c.letter}`,
          'data-route': c.letter,
          'aria-labelledby': `${id}-heading`,
        },
        make('h3', { id: `${id}-heading` }, letter(make, report, c), make('span', {}, c.name)),
        paragraph(
          make,
          `${c.why === undefined ? `${capital(c.strategy)}.` : capital(c.why)} ${whereLeft(c)}`,
        ),
        drawing(writing, id, (o) => legStrip(data, o)),
        legTable(writing, c),
      );
    }),
    paragraph(
      make,
      'Strips share one scale of distance and height. Each black square is one of 100 parties that did not find the target and left the line on that leg.',
      'note',
    ),
  );
}

function legTable({ report, make }: Writing, c: Candidate): HTMLElement {
  const magnetic = report.norths !== null;
  const columns: Column[] = [
    { head: 'leg' },
    { head: 'what to do' },
    { head: 'grid', figures: true },
    ...(magnetic ? [{ head: 'magnetic', figures: true }] : []),
    { head: 'metres', figures: true },
    { head: 'climb', figures: true },
    { head: 'double paces', figures: true },
    { head: 'min', figures: true },
    { head: 'left it here, of 100', figures: true },
  ];
  return table(
    make,
    `Legs of route ${c.letter}, ${c.name}`,
    columns,
    c.legs.map((l, i) => [
      `${i + 1} ${TECHNIQUE_NAMES[l.technique]}`,
      make(
        'span',
        { class: 'meaning' },
        make('b', {}, l.says),
        make('span', {}, `${l.from} → ${l.to}${meets(l)}`),
      ),
      bearing(l.gridBearingDegrees),
      ...(magnetic ? [l.magneticBearingDegrees === null ? '–' : bearing(l.magneticBearingDegrees)] : []),
      thousands(l.distanceMetres),
      String(Math.round(l.climbMetres)),
      thousands(l.doublePaces),
      String(Math.round(l.minutes)),
      hundredText(l.lostHereShare),
    ]),
    { blocks: true },
  );
}

/** What the leg meets, unless its sentence names it already. */
function meets(l: ReportLeg): string {
  const unsaid = l.ticks.filter((t) => !l.says.includes(t.name));
  return unsaid.length === 0
    ? ''
    : ` · meets ${unsaid.map((t) => `${t.name} at ${thousands(t.atMetres)}\u00a0m`).join(', ')}`;
}

/** "Most leave the line on leg 2, 11 of 100, mainly: habit of the day." */
function whereLeft(c: Candidate): string {
  let worst = 0;
  c.legs.forEach((l, i) => {
    if (l.lostHereShare > (c.legs[worst]?.lostHereShare ?? 0)) worst = i;
  });
  const l = c.legs[worst];
  if (l === undefined || l.lostHereShare === 0) return 'No attempt failed on a leg.';
  const why = mainReason(l);
  const where =
    c.legs.length === 1
      ? `On its one leg ${ofHundred(l.lostHereShare)} leave the line`
      : `Most leave the line on leg ${worst + 1}, ${ofHundred(l.lostHereShare)}`;
  return `${where}${why === null ? '' : `, mainly: ${REASON_NAMES[why]}`}.`;
}

function mainReason(l: ReportLeg): Reason | null {
  let main: Reason | null = null;
  for (const r of REASONS) {
    const share = l.reasons[r] ?? 0;
    if (share > 0 && (main === null || share > (l.reasons[main] ?? 0))) main = r;
  }
  return main;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
