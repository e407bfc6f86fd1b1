import type { Candidate, Outcome, Report } from '../../src/report/report.ts';
import { drawBadge } from '../theme/badge.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { routeStyle } from '../theme/route-style.ts';
import { roundBar } from './map-units.ts';
import type { Sheet } from './sheet-use.ts';
import { layUnder } from './sheet-use.ts';
import type { Bounds, View } from './view.ts';
import { viewOf } from './view.ts';

const FOUND: ReadonlySet<Outcome> = new Set(['cleanHit', 'foundBySearch', 'late']);

/** End points on the map itself: small dots, full where the target was found, open where not. */
export function drawEndDots(into: Group, candidates: readonly Candidate[], view: View, radius: number): void {
  for (const c of candidates) {
    const g = into.append('g').attr('class', routeStyle(c.letter).classes).attr('data-route', c.letter);
    for (const p of c.endPoints) {
      const [x, y] = [view.x(p.at[0]), view.y(p.at[1])];
      if (x < 0 || y < 0 || x > view.width || y > view.height) continue;
      g.append('circle')
        .attr('class', FOUND.has(p.outcome) ? 'end-dot found' : 'end-dot')
        .attr('cx', px(x))
        .attr('cy', px(y))
        .attr('r', radius);
    }
  }
}

export interface EndPointsData {
  readonly report: Report;
  readonly sheet: Sheet;
}

/** The surroundings of the target once per route, with the places where its first attempts ended. */
export function endPointPanels(data: EndPointsData, options: FigureOptions): SVGSVGElement {
  const { report, sheet } = data;
  const { width, id, words = ENGLISH } = options;
  const columns = width >= 640 ? 3 : 2;
  const gutter = 18;
  const side = (width - 1 - gutter * (columns - 1)) / columns;
  const head = 30;
  const tall = head + side + 38;
  const rows = Math.ceil(report.candidates.length / columns);
  const [te, tn] = report.task.target.at;
  const reach = panelReach(report);
  const view = viewOf(panelBounds(report), side);
  const svg = startFigure(options, {
    height: Math.round(rows * tall),
    kind: 'end-points map',
    title: words.whereEnded,
    description: words.panels(Math.round(reach * 2)),
  });
  svg
    .append('defs')
    .append('clipPath')
    .attr('id', `${id}-clip`)
    .append('rect')
    .attr('width', px(side))
    .attr('height', px(side));
  report.candidates.forEach((c, i) => {
    const g: Group = svg
      .append('g')
      .attr('class', routeStyle(c.letter).classes)
      .attr('data-route', c.letter)
      .attr(
        'transform',
        `translate(${px((i % columns) * (side + gutter))},${px(Math.floor(i / columns) * tall)})`,
      );
    drawBadge(g, c.letter, { x: 11, y: 13 }, report.unbeaten.includes(c.id));
    g.append('text')
      .attr('class', 'quiet')
      .attr('x', 28)
      .attr('y', 18)
      .text(words.drawnOf(c.endPoints.length, c.success.trials));
    const panel: Group = g.append('g').attr('transform', `translate(0,${head})`);
    const inside: Group = panel.append('g').attr('clip-path', `url(#${id}-clip)`);
    layUnder(inside, sheet, view);
    const line: Group = inside.append('g');
    line.append('path').attr('class', 'route-casing').attr('d', path(c, view));
    line
      .append('path')
      .attr('class', `route-line ${routeStyle(c.letter).dash}`)
      .attr('d', path(c, view));
    inside
      .append('circle')
      .attr('class', 'find-radius')
      .attr('cx', px(side / 2))
      .attr('cy', px(side / 2))
      .attr('r', px(Math.max(2, report.task.target.findRadiusMetres * view.scale)));
    drawEndDots(inside, [c], view, 3.4);
    panel.append('rect').attr('class', 'neatline').attr('width', px(side)).attr('height', px(side));
    const beyond = c.endPoints.filter(
      (p) => Math.max(Math.abs(p.at[0] - te), Math.abs(p.at[1] - tn)) > reach,
    ).length;
    const bar = roundBar(reach / 2, words.measures.units);
    panel
      .append('line')
      .attr('class', 'scale-line')
      .attr('x1', 0)
      .attr('x2', px(bar.metres * view.scale))
      .attr('y1', px(side + 9))
      .attr('y2', px(side + 9));
    panel
      .append('text')
      .attr('class', 'quiet small')
      .attr('x', px(bar.metres * view.scale + 6))
      .attr('y', px(side + 13))
      .text(bar.text);
    if (beyond > 0) {
      panel
        .append('text')
        .attr('class', 'quiet small')
        .attr('x', px(side))
        .attr('y', px(side + 13))
        .attr('text-anchor', 'end')
        .text(words.outside(beyond));
    }
  });
  return finished(svg);
}

function path(c: Candidate, view: View): string {
  return c.line.map((p, i) => `${i === 0 ? 'M' : 'L'}${px(view.x(p[0]))},${px(view.y(p[1]))}`).join('');
}

/** The ground that each panel shows. */
export function panelBounds(report: Report): Bounds {
  const [e, n] = report.task.target.at;
  const reach = panelReach(report);
  return { west: e - reach, east: e + reach, south: n - reach, north: n + reach };
}

/** Half a panel in metres: nine tenths of all dots fit, within 60–400 m. */
function panelReach(report: Report): number {
  const [te, tn] = report.task.target.at;
  const away = report.candidates
    .flatMap((c) => c.endPoints.map((p) => Math.max(Math.abs(p.at[0] - te), Math.abs(p.at[1] - tn))))
    .sort((a, b) => a - b);
  const wanted = (away[Math.floor(away.length * 0.9)] ?? 100) * 1.05;
  return Math.max(60, Math.min(400, Math.ceil(wanted / 10) * 10));
}
