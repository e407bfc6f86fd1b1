import type { Candidate, SampleWalk } from '../../../src/report/report.ts';
import { eventText } from '../../../src/report/told-words.ts';
import { drawSampleWalk } from '../../map/sample-walk.ts';
import type { Sheet } from '../../map/sheet-use.ts';
import type { Attributes } from '../../theme/element.ts';
import { table } from '../../theme/table.ts';
import { duration, thousands } from '../../theme/words.ts';
import { conditionsLine } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, letter, section } from '../page-parts.ts';
import type { ReportWords } from '../words.ts';

/** Single attempts as they went and as the party believed; null where the document tells none. */
export function walksSection(writing: Writing, sheet: Sheet): HTMLElement | null {
  const { report, make, words } = writing;
  const leading = report.candidates.filter((c) => (c.walks?.length ?? 0) > 0);
  if (leading.length === 0) return null;
  return section(
    make,
    'walks',
    words.walks.heading,
    conditionsLine(writing),
    make('p', {}, words.walks.note),
    ...leading.map((c, i) =>
      make(
        'article',
        { class: 'route-part', 'data-route': c.letter, 'aria-label': words.walks.label(c.letter) },
        make('h3', {}, letter(writing, c), make('span', {}, c.name)),
        ...folded(
          writing,
          i > 0,
          c.walks!.map((walk) => walkPart(writing, sheet, c, walk)),
        ),
      ),
    ),
  );
}

/** The best route's attempts lie open; those of the others are a tap away, or the page would be twice as long. */
function folded(
  { make, words }: Writing,
  fold: boolean,
  walks: readonly HTMLElement[],
): readonly HTMLElement[] {
  if (!fold) return walks;
  return [
    make('details', { class: 'folded' }, make('summary', {}, words.walks.show(walks.length)), ...walks),
  ];
}

function walkPart(writing: Writing, sheet: Sheet, c: Candidate, walk: SampleWalk): HTMLElement {
  const { report, make, words } = writing;
  const { walks: say, measures: m, told } = words;
  const id = `walk-${c.letter}-${walk.trial}`;
  const [number, minutes, leg, happened, off, sure] = say.heads;
  const ends = c.legs.map((l) => l.to);
  return make(
    'div',
    { class: 'walk', 'data-walk': id, ...stepperTexts(say.stepper) },
    make('h4', {}, say.title(walk.trial, told.outcomes[walk.outcome], duration(walk.minutes))),
    drawing(
      writing,
      id,
      (o) => drawSampleWalk({ report, candidate: c, walk, sheet }, o),
      make('figcaption', {}, say.key),
    ),
    table(
      make,
      say.caption(walk.trial, c.letter),
      [
        { head: number },
        { head: minutes, figures: true },
        { head: leg, figures: true },
        { head: happened },
        { head: off, figures: true },
        { head: sure, figures: true },
      ],
      walk.events.map((e, i) => [
        make('span', { class: 'event-row', 'data-event': i + 1 }, String(i + 1)),
        String(Math.round(e.minutes)),
        String(e.leg),
        eventText(e.kind, e.leg - 1, ends, told),
        thousands(m.bare.short(Math.hypot(e.at[0] - e.believed[0], e.at[1] - e.believed[1]))),
        thousands(m.bare.short(e.sdMetres)),
      ]),
    ),
  );
}

/** For the page's script, which has no words of its own. */
function stepperTexts(texts: ReportWords['walks']['stepper']): Attributes {
  return Object.fromEntries(Object.entries(texts).map(([name, text]) => [`data-say-${name}`, text]));
}
