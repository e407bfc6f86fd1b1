import { emphasised } from '../conditions-line.ts';
import type { Writing } from '../page-parts.ts';
import { paragraph } from '../page-parts.ts';

/** The task as a sentence, then the verdict in counts under it. */
export function opening({ report, make }: Writing): HTMLElement {
  const { task } = report;
  const invented = task.invented ? ', invented ground' : '';
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
        'turn day and night',
      ),
    ),
    make(
      'h1',
      {},
      ...emphasised(report).map((part) => (part.strong ? make('strong', {}, part.text) : part.text)),
    ),
    make(
      'div',
      { class: 'verdict' },
      ...report.verdict.map((v, i) => paragraph(make, v, i === 0 ? 'first' : undefined)),
    ),
    make('p', { class: 'modelled' }, `Modelled, not observed. ${limitsOfData(report)}`),
  );
}

/** What the data cannot show, in the verdict itself. */
function limitsOfData(report: Writing['report']): string {
  const cell = report.ground.terrainCell;
  const unseen = `Heights every ${plain(cell)} m: relief smaller than ${plain(2 * cell)} m is not seen.`;
  const unassessed = report.candidates.some((c) => c.hazard === 'not assessed')
    ? ' Hazards not assessed.'
    : '';
  return unseen + unassessed;
}

function plain(metres: number): string {
  return String(Math.round(metres * 10) / 10);
}
