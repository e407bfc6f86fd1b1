import type { Report } from '../../src/report/report.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { drawEndDots, panelBounds } from './end-points.ts';
import { drawFurniture } from './furniture.ts';
import type { Ground } from './ground.ts';
import { LabelRoom } from './label-room.ts';
import { drawEndNames, drawHeights, drawNames, drawPoints } from './names.ts';
import { drawEnds, drawLetters, drawRoutes } from './route-lines.ts';
import { drawSheet, hiddenSheet } from './sheet.ts';
import type { Sheet } from './sheet-use.ts';
import { layUnder } from './sheet-use.ts';
import type { Bounds } from './view.ts';
import { framed, groundBounds, shared, taskBounds, union, viewOf, within } from './view.ts';

/** Room for the foot of the map: scale bar and north. */
const FOOT = 34;

export interface MapData {
  readonly report: Report;
  readonly sheet: Sheet;
}

/** What the map shows at a width: a phone gets a squarer piece of ground. */
export function mapBounds(report: Report, width: number): Bounds {
  const b = taskBounds(report);
  const margin = Math.max(120, 0.09 * Math.max(b.east - b.west, b.north - b.south));
  const aspects = width < 500 ? { low: 0.75, high: 1 } : { low: 1.15, high: 1.6 };
  const ground = groundBounds(report);
  const moved = shared(within(framed(b, margin, aspects), ground), ground);
  // The task itself is shown even where the heights end before it.
  return union(moved, b);
}

/** The sheet of a report, to stand once in the page before its maps. */
export function reportSheet(
  report: Report,
  ground: Ground | null,
  options: FigureOptions,
): { element: SVGSVGElement; sheet: Sheet } {
  const maps = union(mapBounds(report, options.width), mapBounds(report, 350));
  const bounds = union(maps, panelBounds(report));
  const scale = viewOf(mapBounds(report, options.width), options.width).scale;
  const view = viewOf(bounds, Math.round((bounds.east - bounds.west) * scale));
  const svg = startFigure(options, { height: 0, kind: 'sheet', title: '', description: '' });
  svg.selectAll('title, desc').remove();
  svg.attr('role', null).attr('aria-labelledby', null).attr('viewBox', null);
  const id = `${options.id}-sheet`;
  const facts = drawSheet(hiddenSheet(svg, id), report, ground, view, options.id);
  return { element: finished(svg), sheet: { id, view, facts } };
}

/** The map of a task: the ground, the features with their doubt, the routes, and where attempts ended. */
export function drawMap(data: MapData, options: FigureOptions): SVGSVGElement {
  const { report, sheet } = data;
  const { width, id, words = ENGLISH } = options;
  const view = viewOf(mapBounds(report, width), width);
  const size = 13;
  const svg = startFigure(options, {
    height: view.height + FOOT,
    kind: 'map',
    title: words.mapTitle(report.task.start.name, report.task.target.name),
    description: words.mapShown(
      report.candidates.map((c) => `${c.letter} ${c.name}`),
      report.task.terrain,
    ),
  });
  svg
    .append('defs')
    .append('clipPath')
    .attr('id', `${id}-clip`)
    .append('rect')
    .attr('width', view.width)
    .attr('height', view.height);
  const inside: Group = svg.append('g').attr('clip-path', `url(#${id}-clip)`);
  layUnder(inside, sheet, view);
  const room = new LabelRoom(view.width, view.height);
  const furniture: Group = svg.append('g');
  drawFurniture(furniture, report, view, room, 11, words);
  // What must not be hidden takes its room first, and is drawn last.
  const points: Group = inside.append('g').attr('class', 'layer-features');
  const routes: Group = inside.append('g').attr('class', 'layer-routes');
  const dots: Group = inside.append('g').attr('class', 'layer-ends');
  const names: Group = inside.append('g').attr('class', 'layer-names');
  const heights: Group = inside.append('g').attr('class', 'layer-contours');
  const marks: Group = inside.append('g');
  for (const c of report.candidates) room.avoid(c.line.map((p) => [view.x(p[0]), view.y(p[1])] as const));
  drawEnds(marks, report, view, room);
  drawEndNames(names, report, view, room, 13);
  drawRoutes(routes, report, view);
  drawLetters(marks.append('g').attr('class', 'layer-routes'), report, view, room);
  drawEndDots(dots, report.candidates, view, 2);
  drawPoints(points, report, view, room);
  drawNames(names, report, view, room, size);
  drawHeights(heights, sheet.facts, view, room, 11);
  return finished(svg);
}
