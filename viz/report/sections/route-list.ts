import { select } from 'd3';
import type { Candidate } from '../../../src/report/report.ts';
import { routeStyle } from '../../theme/route-style.ts';
import { duration, hundredth } from '../../theme/words.ts';
import type { Writing } from '../page-parts.ts';
import { letter } from '../page-parts.ts';
import type { ReportWords } from '../words.ts';

/** The routes one under the other: letter, line as drawn, name, and the figures that decide. */
export function routeList(writing: Writing): HTMLElement {
  const { report, make, words } = writing;
  const m = words.measures;
  return make(
    'ol',
    { class: 'routes', 'aria-label': words.routes.label },
    ...report.candidates.map((c) =>
      make(
        'li',
        { 'data-route': c.letter, class: `hue-${routeStyle(c.letter).hue}` },
        letter(writing, c),
        swatch(writing, c),
        make(
          'span',
          { class: 'what' },
          make('b', {}, c.name),
          make('span', { class: 'how' }, `${c.strategy}${c.origin === 'drawn' ? words.routes.drawn : ''}`),
          make('span', { class: 'how' }, beside(c, words)),
        ),
        make('span', { class: 'far' }, words.routes.up(m.long(c.distanceMetres), m.height(c.climbMetres))),
        make('span', { class: 'long' }, duration(c.minutes.p50)),
        make('span', { class: 'found' }, make('b', {}, String(hundredth(c.success.share))), words.afterCount),
      ),
    ),
  );
}

/** What stands beside every headline share. */
function beside(c: Candidate, { routes: say, ofHundred }: ReportWords): string {
  const hazard = c.hazard === 'not assessed' ? say.hazardsNot : say.hazard(ofHundred(c.hazard.share));
  return say.beside(ofHundred(c.outcomes.falseFind), ofHundred(c.outcomes.lost), hazard);
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
