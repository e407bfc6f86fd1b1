import type { Candidate, SampleWalk } from '../../../src/report/report.ts';
import { drawSampleWalk } from '../../map/sample-walk.ts';
import type { Sheet } from '../../map/sheet-use.ts';
import { table } from '../../theme/table.ts';
import { duration, EVENT_WORDS, OUTCOME_NAMES, thousands } from '../../theme/words.ts';
import { conditionsLine } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, letter, section } from '../page-parts.ts';

/** Single attempts as they went and as the party believed; null where the document tells none. */
export function walksSection(writing: Writing, sheet: Sheet): HTMLElement | null {
  const { report, make } = writing;
  const leading = report.candidates.filter((c) => (c.walks?.length ?? 0) > 0);
  if (leading.length === 0) return null;
  return section(
    make,
    'walks',
    'Single attempts',
    conditionsLine(writing),
    make(
      'p',
      {},
      'The first attempt that finds the target and the first that does not, on the routes that most parties find it by. One attempt proves nothing; it shows how such a day goes.',
    ),
    ...leading.map((c, i) =>
      make(
        'article',
        { class: 'route-part', 'data-route': c.letter, 'aria-label': `Attempts on route ${c.letter}` },
        make('h3', {}, letter(make, report, c), make('span', {}, c.name)),
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
function folded({ make }: Writing, fold: boolean, walks: readonly HTMLElement[]): readonly HTMLElement[] {
  if (!fold) return walks;
  return [
    make('details', { class: 'folded' }, make('summary', {}, `Show ${walks.length} attempts`), ...walks),
  ];
}

function walkPart(writing: Writing, sheet: Sheet, c: Candidate, walk: SampleWalk): HTMLElement {
  const { report, make } = writing;
  const id = `walk-${c.letter}-${walk.trial}`;
  const title = `Attempt ${thousands(walk.trial)}: ${OUTCOME_NAMES[walk.outcome]}, ${duration(walk.minutes)}`;
  return make(
    'div',
    { class: 'walk', 'data-walk': id },
    make('h4', {}, title),
    drawing(
      writing,
      id,
      (o) => drawSampleWalk({ report, candidate: c, walk, sheet }, o),
      make(
        'figcaption',
        {},
        'Full line: the true track. Broken line: where the party believed it was. Thin line: the plan. Full dots are true places, open ones believed, numbered as in the table.',
      ),
    ),
    table(
      make,
      `What happened in attempt ${thousands(walk.trial)} on route ${c.letter}`,
      [
        { head: 'no.' },
        { head: 'min', figures: true },
        { head: 'leg', figures: true },
        { head: 'what happened' },
        { head: 'off its belief, m', figures: true },
        { head: 'sure to, m', figures: true },
      ],
      walk.events.map((e, i) => [
        make('span', { class: 'event-row', 'data-event': i + 1 }, String(i + 1)),
        String(Math.round(e.minutes)),
        String(e.leg),
        eventText(e.kind, e.leg, c),
        thousands(Math.hypot(e.at[0] - e.believed[0], e.at[1] - e.believed[1])),
        thousands(e.sdMetres),
      ]),
    ),
  );
}

/** "leg" says only that one begins. */
function eventText(kind: string, leg: number, c: Candidate): string {
  if (kind !== 'leg') return EVENT_WORDS[kind] ?? kind;
  const begun = c.legs[leg - 1];
  return begun === undefined ? kind : `sets off for ${begun.to}`;
}
