import { OUTCOMES } from '../../../src/report/report.ts';
import { foundBy } from '../../charts/found-by.ts';
import { hundredArrays } from '../../charts/hundred.ts';
import { timeSuccess } from '../../charts/time-success.ts';
import { endPointPanels } from '../../map/end-points.ts';
import type { Sheet } from '../../map/sheet-use.ts';
import { folded, table } from '../../theme/table.ts';
import { hundredText, OUTCOME_MEANINGS, OUTCOME_NAMES, thousands } from '../../theme/words.ts';
import { conditionsLine } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, letter, section } from '../page-parts.ts';

export function foundBySection(writing: Writing): HTMLElement {
  const { report, make } = writing;
  const { candidates, unbeaten } = report;
  const last = Math.max(0, ...candidates.map((c) => c.foundBy[c.foundBy.length - 1]?.[0] ?? 0));
  const step = last > 120 ? 20 : last > 50 ? 10 : 5;
  const minutes = Array.from({ length: Math.floor(last / step) }, (_, i) => (i + 1) * step);
  return section(
    make,
    'found-by',
    'Found by when',
    conditionsLine(writing),
    drawing(
      writing,
      'found-by-chart',
      (o) => foundBy({ candidates, unbeaten, limitMinutes: report.limits.minutes }, o),
      make(
        'figcaption',
        {},
        'How many of 100 parties have found the target within so many minutes. A curve that flattens early stays where it is: more time would not help those parties.',
      ),
    ),
    folded(
      make,
      'As a table',
      table(
        make,
        'Found within so many minutes, of 100',
        [{ head: 'minutes', figures: true }, ...candidates.map((c) => ({ head: c.letter, figures: true }))],
        minutes.map((m) => [String(m), ...candidates.map((c) => hundredText(shareBy(c.foundBy, m)))]),
      ),
    ),
  );
}

function shareBy(curve: readonly (readonly [number, number])[], minutes: number): number {
  let share = 0;
  for (const [m, s] of curve) {
    if (m > minutes) break;
    share = s;
  }
  return share;
}

export function timeSuccessSection(writing: Writing): HTMLElement {
  const { report, make } = writing;
  const { candidates, unbeaten } = report;
  const varied = candidates.some((c) => c.assumption);
  const range = (low: number, high: number) => `${hundredText(low)}–${hundredText(high)}`;
  return section(
    make,
    'time-success',
    'Time against success',
    conditionsLine(writing),
    drawing(
      writing,
      'time-success-chart',
      (o) => timeSuccess({ candidates, unbeaten }, o),
      make(
        'figcaption',
        {},
        'Thick bar: the luck of sampling. ',
        varied
          ? 'Thin bar: skill and trust in the map varied. '
          : make('strong', {}, 'Assumptions not varied. '),
        'Full letter: unbeaten, no other route is both quicker and more certain. Times are over all attempts, failures included, without rests.',
      ),
    ),
    folded(
      make,
      'As a table',
      table(
        make,
        'Time and success',
        [
          { head: 'route' },
          { head: 'quick tenth, min', figures: true },
          { head: 'middle, min', figures: true },
          { head: 'slow tenth, min', figures: true },
          { head: 'found, of 100', figures: true },
          { head: 'sampling', figures: true },
          { head: 'assumptions', figures: true },
          { head: 'unbeaten' },
          { head: 'hazard entered, of 100' },
        ],
        candidates.map((c) => [
          `${c.letter} ${c.name}`,
          String(Math.round(c.minutes.p10)),
          String(Math.round(c.minutes.p50)),
          String(Math.round(c.minutes.p90)),
          hundredText(c.success.share),
          range(c.success.low, c.success.high),
          c.assumption ? range(c.assumption.low, c.assumption.high) : 'not varied',
          unbeaten.includes(c.id) ? 'yes' : '',
          c.hazard === 'not assessed'
            ? make('span', { class: 'stipple' }, 'not assessed')
            : hundredText(c.hazard.share),
        ]),
        { blocks: true },
      ),
    ),
  );
}

export function outcomesSection(writing: Writing): HTMLElement {
  const { report, make } = writing;
  const { candidates, unbeaten } = report;
  return section(
    make,
    'outcomes',
    'Of 100 such parties',
    conditionsLine(writing),
    drawing(writing, 'hundred-chart', (o) => hundredArrays({ candidates, unbeaten }, o)),
    table(
      make,
      'How attempts ended, of 100',
      [{ head: 'outcome' }, ...candidates.map((c) => ({ head: c.letter, figures: true }))],
      OUTCOMES.map((o) => [
        make(
          'span',
          { class: 'meaning' },
          make('b', {}, OUTCOME_NAMES[o]),
          make('span', {}, OUTCOME_MEANINGS[o]),
        ),
        ...candidates.map((c) => hundredText(c.outcomes[o])),
      ]),
    ),
  );
}

export function endPointsSection(writing: Writing, sheet: Sheet): HTMLElement {
  const { report, make } = writing;
  const { candidates } = report;
  const [te, tn] = report.task.target.at;
  const distances = (c: (typeof candidates)[number]) =>
    c.endPoints.map((p) => Math.hypot(p.at[0] - te, p.at[1] - tn)).sort((a, b) => a - b);
  return section(
    make,
    'end-points',
    'End points',
    conditionsLine(writing),
    drawing(
      writing,
      'end-point-panels',
      (o) => endPointPanels({ report, sheet }, o),
      make(
        'figcaption',
        {},
        `The ground around the target. Full dots found it, open dots did not; the ring is the distance at which it is found, ${Math.round(report.task.target.findRadiusMetres)} m.`,
      ),
    ),
    folded(
      make,
      'As a table',
      table(
        make,
        'End points drawn and their distance from the target',
        [
          { head: 'route' },
          { head: 'drawn' },
          { head: 'half within, m', figures: true },
          { head: 'nine tenths within, m', figures: true },
        ],
        candidates.map((c) => {
          const d = distances(c);
          const at = (share: number) =>
            d.length === 0
              ? '–'
              : String(Math.round(d[Math.min(d.length - 1, Math.floor(d.length * share))]!));
          return [
            letter(make, report, c),
            `${c.endPoints.length} of ${thousands(c.success.trials)}`,
            at(0.5),
            at(0.9),
          ];
        }),
      ),
    ),
  );
}
