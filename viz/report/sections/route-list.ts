import { select } from 'd3';
import type { Candidate } from '../../../src/report/report.ts';
import { routeStyle } from '../../theme/route-style.ts';
import { duration, hundredth, kilometres, ofHundred } from '../../theme/words.ts';
import type { Writing } from '../page-parts.ts';
import { letter } from '../page-parts.ts';

/** The routes one under the other: letter, line as drawn, name, and the figures that decide. */
export function routeList(writing: Writing): HTMLElement {
  const { report, make } = writing;
  return make(
    'ol',
    { class: 'routes', 'aria-label': 'Routes' },
    ...report.candidates.map((c) =>
      make(
        'li',
        { 'data-route': c.letter, class: `hue-${routeStyle(c.letter).hue}` },
        letter(make, report, c),
        swatch(writing, c),
        make(
          'span',
          { class: 'what' },
          make('b', {}, c.name),
          make('span', { class: 'how' }, `${c.strategy}${c.origin === 'drawn' ? ' · drawn' : ''}`),
          make('span', { class: 'how' }, beside(c)),
        ),
        make('span', { class: 'far' }, `${kilometres(c.distanceMetres)}, ${Math.round(c.climbMetres)} m up`),
        make('span', { class: 'long' }, duration(c.minutes.p50)),
        make('span', { class: 'found' }, make('b', {}, String(hundredth(c.success.share))), ' of 100'),
      ),
    ),
  );
}

/** What stands beside every headline share. */
function beside(c: Candidate): string {
  const hazard =
    c.hazard === 'not assessed' ? 'hazards not assessed' : `hazard entered by ${ofHundred(c.hazard.share)}`;
  return `false finds ${ofHundred(c.outcomes.falseFind)}, lost ${ofHundred(c.outcomes.lost)}, ${hazard}`;
}

function swatch({ document }: Writing, c: Candidate): Node {
  const svg = select(document.createElementNS('http://www.w3.org/2000/svg', 'svg'))
    .attr('class', 'swatch-line')
    .attr('viewBox', '0 0 44 10')
    .attr('width', 44)
    .attr('height', 10)
    .attr('aria-hidden', 'true');
  svg
    .append('path')
    .attr('class', `route-line ${routeStyle(c.letter).dash}`)
    .attr('d', 'M0,5H44');
  return svg.node()!;
}
