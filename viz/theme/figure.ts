import type { Selection } from 'd3';
import { select } from 'd3';
import type { FigureWords } from './figure-words.ts';

/** What every drawing needs beside its data. */
export interface FigureOptions {
  /** Elements are made in this document: the browser's, or one of Node's. */
  readonly document: Document;
  /** Width of the view box in px; text keeps its size, so a narrow figure is laid out anew. */
  readonly width: number;
  /** Prefix of the ids inside the figure, unique on its page. */
  readonly id: string;
  /** English unless given. */
  readonly words?: FigureWords;
}

export type Group = Selection<SVGGElement, unknown, null, undefined>;
export type Figure = Selection<SVGSVGElement, unknown, null, undefined>;

const SVG = 'http://www.w3.org/2000/svg';

/** An empty SVG with a name for readers that do not see it. */
export function startFigure(
  options: FigureOptions,
  shape: { height: number; title: string; description: string; kind: string },
): Figure {
  const { document, width, id } = options;
  const svg = select(document.createElementNS(SVG, 'svg'))
    .attr('xmlns', SVG)
    .attr('class', `figure ${shape.kind}`)
    .attr('viewBox', `0 0 ${width} ${shape.height}`)
    .attr('role', 'img')
    .attr('aria-labelledby', `${id}-title ${id}-desc`);
  svg.append('title').attr('id', `${id}-title`).text(shape.title);
  svg.append('desc').attr('id', `${id}-desc`).text(shape.description);
  return svg;
}

/** The finished element. */
export function finished(figure: Figure): SVGSVGElement {
  const node = figure.node();
  if (node === null) throw new Error('figure without an element');
  return node;
}

/** Coordinates of drawings: a tenth of a px is finer than any screen shows. */
export function px(value: number): string {
  const tenths = Math.round(value * 10) / 10;
  return String(tenths === 0 ? 0 : tenths);
}
