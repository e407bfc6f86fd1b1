import { OUTCOMES } from '../../../src/report/report.ts';
import { foundBy } from '../../charts/found-by.ts';
import { foundByRows } from '../../charts/found-by-rows.ts';
import { hundredArrays } from '../../charts/hundred.ts';
import { timeSuccess } from '../../charts/time-success.ts';
import { endPointPanels } from '../../map/end-points.ts';
import type { Sheet } from '../../map/sheet-use.ts';
import { folded, table } from '../../theme/table.ts';
import { hundredText } from '../../theme/words.ts';
import { conditionsLine } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { drawing, letter, section } from '../page-parts.ts';

export function foundBySection(writing: Writing): HTMLElement {
  const { report, make, words } = writing;
  const say = words.foundBy;
  const { candidates, unbeaten } = report;
  return section(
    make,
    'found-by',
    say.heading,
    conditionsLine(writing),
    drawing(
      writing,
      'found-by-chart',
      (o) => foundBy({ candidates, unbeaten, limitMinutes: report.limits.minutes }, o),
      make('figcaption', {}, say.note),
    ),
    folded(
      make,
      words.asTable,
      table(
        make,
        say.caption,
        [{ head: say.minutes, figures: true }, ...candidates.map((c) => ({ head: c.letter, figures: true }))],
        foundByRows(candidates),
      ),
    ),
  );
}

export function timeSuccessSection(writing: Writing): HTMLElement {
  const { report, make, words } = writing;
  const say = words.timeSuccess;
  const [route, quick, middle, slow, found, sampling, assumptions, best, hazard] = say.heads;
  const { candidates, unbeaten } = report;
  const varied = candidates.some((c) => c.assumption);
  const range = (low: number, high: number) => `${hundredText(low)}–${hundredText(high)}`;
  return section(
    make,
    'time-success',
    say.heading,
    conditionsLine(writing),
    drawing(
      writing,
      'time-success-chart',
      (o) => timeSuccess({ candidates, unbeaten }, o),
      make('figcaption', {}, say.sampling, varied ? say.varied : make('strong', {}, say.notVaried), say.note),
    ),
    folded(
      make,
      words.asTable,
      table(
        make,
        say.caption,
        [
          { head: route },
          { head: quick, figures: true },
          { head: middle, figures: true },
          { head: slow, figures: true },
          { head: found, figures: true },
          { head: sampling, figures: true },
          { head: assumptions, figures: true },
          { head: best },
          { head: hazard },
        ],
        candidates.map((c) => [
          `${c.letter} ${c.name}`,
          String(Math.round(c.minutes.p10)),
          String(Math.round(c.minutes.p50)),
          String(Math.round(c.minutes.p90)),
          hundredText(c.success.share),
          range(c.success.low, c.success.high),
          c.assumption ? range(c.assumption.low, c.assumption.high) : say.fixed,
          unbeaten.includes(c.id) ? say.yes : '',
          c.hazard === 'not assessed'
            ? make('span', { class: 'stipple' }, words.notAssessed)
            : hundredText(c.hazard.share),
        ]),
        { blocks: true },
      ),
    ),
  );
}

export function outcomesSection(writing: Writing): HTMLElement {
  const { report, make, words } = writing;
  const say = words.outcomes;
  const { candidates, unbeaten } = report;
  return section(
    make,
    'outcomes',
    say.heading,
    conditionsLine(writing),
    drawing(writing, 'hundred-chart', (o) => hundredArrays({ candidates, unbeaten }, o)),
    table(
      make,
      say.caption,
      [{ head: say.outcome }, ...candidates.map((c) => ({ head: c.letter, figures: true }))],
      OUTCOMES.map((o) => [
        make(
          'span',
          { class: 'meaning' },
          make('b', {}, words.told.outcomes[o]),
          make('span', {}, words.told.meanings[o]),
        ),
        ...candidates.map((c) => hundredText(c.outcomes[o])),
      ]),
    ),
  );
}

export function endPointsSection(writing: Writing, sheet: Sheet): HTMLElement {
  const { report, make, words } = writing;
  const say = words.ends;
  const [route, drawn, half, most] = say.heads;
  const { candidates } = report;
  const [te, tn] = report.task.target.at;
  const distances = (c: (typeof candidates)[number]) =>
    c.endPoints.map((p) => Math.hypot(p.at[0] - te, p.at[1] - tn)).sort((a, b) => a - b);
  return section(
    make,
    'end-points',
    say.heading,
    conditionsLine(writing),
    drawing(
      writing,
      'end-point-panels',
      (o) => endPointPanels({ report, sheet }, o),
      make('figcaption', {}, say.note(report.task.target.findRadiusMetres)),
    ),
    folded(
      make,
      words.asTable,
      table(
        make,
        say.caption,
        [{ head: route }, { head: drawn }, { head: half, figures: true }, { head: most, figures: true }],
        candidates.map((c) => {
          const d = distances(c);
          const at = (share: number) =>
            d.length === 0
              ? '–'
              : String(words.measures.bare.short(d[Math.min(d.length - 1, Math.floor(d.length * share))]!));
          return [letter(writing, c), say.of(c.endPoints.length, c.success.trials), at(0.5), at(0.9)];
        }),
      ),
    ),
  );
}
