import type { Candidate, Reason, ReportLeg } from '../../../src/report/report.ts';
import { REASONS } from '../../../src/report/report.ts';
import { NEAR_DROP } from '../../charts/exposure.ts';
import { hasExposure, legStrip, sharedHeights } from '../../charts/strip.ts';
import type { Column } from '../../theme/table.ts';
import { table } from '../../theme/table.ts';
import { hundredText, thousands } from '../../theme/words.ts';
import { conditionsLine } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, letter, paragraph, section } from '../page-parts.ts';
import type { ReportWords } from '../words.ts';

/** Where parties leave the line: every route drawn out leg by leg, with its table. */
export function legsSection(writing: Writing): HTMLElement {
  const { report, make, words } = writing;
  const fullMetres = Math.max(1, ...report.candidates.map((c) => c.distanceMetres));
  const heights = sharedHeights(report.candidates);
  return section(
    make,
    'legs',
    words.legs.heading,
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
        make('h3', { id: `${id}-heading` }, letter(writing, c), make('span', {}, c.name)),
        paragraph(
          make,
          `${c.why === undefined ? `${capital(c.strategy)}.` : capital(c.why)} ${whereLeft(c, words)}`,
        ),
        drawing(writing, id, (o) => legStrip(data, o)),
        legTable(writing, c),
      );
    }),
    paragraph(make, words.legs.note, 'note'),
    hasExposure(report.candidates, report.features) &&
      paragraph(make, words.figures.dropNear(NEAR_DROP), 'note'),
  );
}

function legTable({ report, make, words }: Writing, c: Candidate): HTMLElement {
  const magnetic = report.norths !== null;
  const { legs: say, measures: m, told } = words;
  const columns: Column[] = [
    { head: say.leg },
    { head: say.what },
    { head: say.grid, figures: true },
    ...(magnetic ? [{ head: say.magnetic, figures: true }] : []),
    { head: say.metres, figures: true },
    { head: say.climb, figures: true },
    { head: say.doublePaces, figures: true },
    { head: say.minutes, figures: true },
    { head: say.left, figures: true },
  ];
  return table(
    make,
    say.caption(c.letter, c.name),
    columns,
    c.legs.map((l, i) => [
      `${i + 1} ${told.techniques[l.technique]}`,
      make(
        'span',
        { class: 'meaning' },
        make('b', {}, l.says),
        make('span', {}, `${say.fromTo(l.from, l.to)}${meets(l, words)}`),
      ),
      m.bearing(l.gridBearingDegrees),
      ...(magnetic ? [l.magneticBearingDegrees === null ? '–' : m.bearing(l.magneticBearingDegrees)] : []),
      thousands(m.bare.short(l.distanceMetres)),
      String(m.bare.height(l.climbMetres)),
      thousands(l.doublePaces),
      String(Math.round(l.minutes)),
      hundredText(l.lostHereShare),
    ]),
    { blocks: true },
  );
}

/** What the leg meets, unless its sentence names it already. */
function meets(l: ReportLeg, words: ReportWords): string {
  const unsaid = l.ticks.filter((t) => !l.says.includes(t.name));
  return unsaid.length === 0 ? '' : words.legs.meets(unsaid);
}

/** "Most leave the line on leg 2, 11 of 100, mainly: habit of the day." */
function whereLeft(c: Candidate, { legs: say, told, ofHundred }: ReportWords): string {
  let worst = 0;
  c.legs.forEach((l, i) => {
    if (l.lostHereShare > (c.legs[worst]?.lostHereShare ?? 0)) worst = i;
  });
  const l = c.legs[worst];
  if (l === undefined || l.lostHereShare === 0) return say.none;
  const reason = mainReason(l);
  const why = reason === null ? null : told.reasons[reason];
  const count = ofHundred(l.lostHereShare);
  return c.legs.length === 1 ? say.onlyLeg(count, why) : say.worstLeg(worst + 1, count, why);
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
