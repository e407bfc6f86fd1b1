import type { Report } from '../../../src/report/report.ts';
import { emphasised } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { paragraph } from '../page-parts.ts';
import type { ReportWords } from '../words.ts';

/** Letters from which on a name may be broken. */
const LONG = 24;

/** The task as a sentence, then the verdict in counts under it. */
export function opening({ report, make, words }: Writing): HTMLElement {
  const { task } = report;
  const invented = task.invented ? words.invented : '';
  return make(
    'header',
    { class: 'opening' },
    make(
      'div',
      { class: 'kicker' },
      make('span', { class: 'mark' }, 'mistwise'),
      make('span', {}, `${task.name} · ${task.terrain}${invented}`),
      make(
        'label',
        { class: 'light' },
        make('input', { type: 'checkbox', id: 'other-light', autocomplete: 'off' }),
        words.light,
      ),
    ),
    make(
      'h1',
      {},
      ...emphasised(report, words).map((part) =>
        part.strong
          ? make('strong', { class: part.text.length > LONG ? 'long' : null }, part.text)
          : part.text,
      ),
    ),
    make(
      'div',
      { class: 'verdict' },
      ...report.verdict.map((v, i) => paragraph(make, v, i === 0 ? 'first' : undefined)),
    ),
    make('p', { class: 'modelled' }, `${words.modelled} ${limitsOfData(report, words)}`),
  );
}

/** What the data cannot show, in the verdict itself. */
function limitsOfData({ ground, candidates }: Report, words: ReportWords): string {
  const unassessed = candidates.some((c) => c.hazard === 'not assessed') ? ` ${words.hazardsNot}` : '';
  return words.heights(ground.terrainCell) + unassessed;
}
