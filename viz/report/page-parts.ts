import type { Candidate, Report } from '../../src/report/report.ts';
import type { Child, Make } from '../theme/element.ts';
import type { FigureOptions } from '../theme/figure.ts';
import { routeStyle } from '../theme/route-style.ts';
import type { ReportWords } from './words.ts';

/** What every section is given. */
export interface Writing {
  readonly report: Report;
  readonly document: Document;
  readonly make: Make;
  readonly words: ReportWords;
}

/** View box of the desk's drawings: drawn a little larger on a screen, at their own size on A4, so that print keeps 9.5 pt. */
export const WIDE = 720;
export const NARROW = 350;

/** A heading in the margin, the rest in the column. */
export function section(make: Make, id: string, heading: string, ...content: readonly Child[]): HTMLElement {
  return make(
    'section',
    { id, 'aria-labelledby': `${id}-heading` },
    make('h2', { id: `${id}-heading` }, heading),
    make('div', { class: 'column' }, ...content),
  );
}

/** A drawing twice, laid out for the desk and for a phone; the style sheet shows one of them. */
export function drawing(
  writing: Writing,
  id: string,
  draw: (options: FigureOptions) => SVGSVGElement,
  ...below: readonly Child[]
): HTMLElement {
  const { make, document } = writing;
  const words = writing.words.figures;
  return make(
    'figure',
    { class: 'drawing', id },
    make('div', { class: 'wide' }, draw({ document, width: WIDE, id: `${id}-w`, words })),
    make('div', { class: 'narrow' }, draw({ document, width: NARROW, id: `${id}-n`, words })),
    ...below,
  );
}

/** The route's letter in a circle, a link to its part of the report. */
export function letter({ make, report, words }: Writing, candidate: Candidate): HTMLElement {
  const unbeaten = report.unbeaten.includes(candidate.id);
  return make(
    'a',
    {
      class: `letter hue-${routeStyle(candidate.letter).hue}${unbeaten ? ' filled' : ''}`,
      href: `#route-${candidate.letter}`,
      'data-route': candidate.letter,
      'aria-label': words.route(candidate.letter, candidate.name),
    },
    candidate.letter,
  );
}

export function paragraph(make: Make, text: string, kind?: string): HTMLElement {
  return make('p', { class: kind }, text);
}
