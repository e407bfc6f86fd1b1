import type { Candidate, Report, SampleWalk } from '../../src/report/report.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { routeStyle } from '../theme/route-style.ts';
import { roundBar } from './map-units.ts';
import type { Sheet } from './sheet-use.ts';
import { layUnder } from './sheet-use.ts';
import { boundsOf, framed, type View, viewOf } from './view.ts';

export interface SampleWalkData {
  readonly report: Report;
  readonly candidate: Candidate;
  readonly walk: SampleWalk;
  readonly sheet: Sheet;
}

type Places = readonly (readonly [number, number])[];

/** A number has this much room of its own, px. */
const NUMBER_ROOM = 17;

/** One attempt on the map: the true track full, the believed one broken, a mark where something happened and a line to where the party thought it was. */
export function drawSampleWalk(data: SampleWalkData, options: FigureOptions): SVGSVGElement {
  const { report, candidate, walk, sheet } = data;
  const { width, id, words = ENGLISH } = options;
  const { start, target } = report.task;
  const shown = boundsOf([start.at, target.at, ...walk.track, ...walk.believedTrack]);
  const margin = 0.06 * Math.max(shown.east - shown.west, shown.north - shown.south, 200);
  const view = viewOf(framed(shown, margin, { low: 1.1, high: 2.2 }), width);
  const svg = startFigure(options, {
    height: view.height + 20,
    kind: 'sample-walk map',
    title: words.attempt(walk.trial, candidate.letter),
    description: words.attemptShown,
  });
  svg
    .append('defs')
    .append('clipPath')
    .attr('id', `${id}-clip`)
    .append('rect')
    .attr('width', px(width))
    .attr('height', view.height);
  const inside: Group = svg.append('g').attr('clip-path', `url(#${id}-clip)`);
  layUnder(inside, sheet, view);
  const g: Group = inside.append('g').attr('class', routeStyle(candidate.letter).classes);
  g.append('path').attr('class', 'walk-plan').attr('d', pathOf(candidate.line, view));
  g.append('path').attr('class', 'route-casing').attr('d', pathOf(walk.track, view));
  g.append('path').attr('class', 'route-line solid').attr('d', pathOf(walk.track, view));
  g.append('path').attr('class', 'walk-believed').attr('d', pathOf(walk.believedTrack, view));
  drawEvents(g, walk, view);
  sign(inside, view, start.at, 'S', 'M-9,-9H9V9H-9Z');
  sign(inside, view, target.at, 'T', 'M-6,-12H6V-6H12V6H6V12H-6V6H-12V-6H-6Z');
  svg
    .append('rect')
    .attr('class', 'neatline')
    .attr('width', px(width - 1))
    .attr('height', view.height);
  const bar = roundBar((width / view.scale) * 0.25, words.measures.units);
  svg
    .append('line')
    .attr('class', 'scale-line')
    .attr('x1', 0)
    .attr('x2', px(bar.metres * view.scale))
    .attr('y1', view.height + 9)
    .attr('y2', view.height + 9);
  svg
    .append('text')
    .attr('class', 'quiet small')
    .attr('x', px(bar.metres * view.scale + 6))
    .attr('y', view.height + 13)
    .text(bar.text);
  return finished(svg);
}

function drawEvents(into: Group, walk: SampleWalk, view: View): void {
  const numbered: [number, number][] = [];
  walk.events.forEach((e, i) => {
    const [x, y] = [view.x(e.at[0]), view.y(e.at[1])];
    const g = into
      .append('g')
      .attr('class', 'walk-event')
      .attr('data-event', i + 1);
    g.append('path')
      .attr('class', 'walk-error')
      .attr('d', `M${px(x)},${px(y)}L${px(view.x(e.believed[0]))},${px(view.y(e.believed[1]))}`);
    g.append('circle')
      .attr('class', 'walk-thought')
      .attr('cx', px(view.x(e.believed[0])))
      .attr('cy', px(view.y(e.believed[1])))
      .attr('r', 3);
    g.append('circle').attr('class', 'walk-truth').attr('cx', px(x)).attr('cy', px(y)).attr('r', 3.4);
    const free = numbered.every(([a, b]) => Math.abs(a - x) > NUMBER_ROOM || Math.abs(b - y) > NUMBER_ROOM);
    const label = g
      .append('text')
      .attr('class', free ? 'walk-number' : 'walk-number hidden')
      .attr('x', px(x + 6))
      .attr('y', px(y - 5))
      .text(i + 1);
    if (free) numbered.push([x, y]);
    label.attr('paint-order', 'stroke');
  });
}

function sign(into: Group, view: View, at: readonly [number, number], letter: string, outline: string): void {
  const g = into
    .append('g')
    .attr('class', 'task-end')
    .attr('transform', `translate(${px(view.x(at[0]))},${px(view.y(at[1]))})`);
  g.append('path').attr('d', outline);
  g.append('text').attr('dy', '0.36em').attr('text-anchor', 'middle').text(letter);
}

function pathOf(line: Places, view: View): string {
  return line.map((p, i) => `${i === 0 ? 'M' : 'L'}${px(view.x(p[0]))},${px(view.y(p[1]))}`).join('');
}
