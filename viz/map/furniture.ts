import type { Report } from '../../src/report/report.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { drawTicks } from './grid-ticks.ts';
import type { LabelRoom } from './label-room.ts';
import { type Bar, niceLength, roundBar } from './map-units.ts';
import type { View } from './view.ts';

/** Frame, grid ticks with their kilometres at the edge, scale bar and north below. */
export function drawFurniture(
  into: Group,
  report: Report,
  view: View,
  room: LabelRoom,
  size: number,
  words: FigureWords = ENGLISH,
): void {
  into.append('rect').attr('class', 'neatline').attr('width', px(view.width)).attr('height', px(view.height));
  drawTicks(
    into,
    view,
    room,
    niceLength((view.bounds.east - view.bounds.west) / (view.width < 500 ? 2 : 3)),
    size,
  );
  const foot: Group = into.append('g').attr('transform', `translate(0,${px(view.height + 22)})`);
  const bar = roundBar((view.width * (view.width < 500 ? 0.3 : 0.2)) / view.scale, words.measures.units);
  drawScaleBar(foot, bar, view.scale);
  drawNorth(foot, report, view.width, words);
}

/** A bar with its half marked. */
export function drawScaleBar(into: Group, { metres, text }: Bar, scale: number): void {
  const wide = metres * scale;
  into
    .append('path')
    .attr('class', 'scale-line')
    .attr('d', `M0,-5V0H${px(wide)}V-5M${px(wide / 2)},-3V0`);
  into
    .append('text')
    .attr('class', 'quiet small')
    .attr('x', px(wide + 8))
    .attr('y', 2)
    .text(text);
}

/** Grid north points up the sheet; where magnetic north lies is said in figures. */
function drawNorth(into: Group, report: Report, width: number, words: FigureWords): void {
  const g: Group = into.append('g').attr('transform', `translate(${px(width - 8)},0)`);
  g.append('path').attr('class', 'scale-line').attr('d', 'M0,4V-12M-3.5,-7L0,-12L3.5,-7');
  g.append('text')
    .attr('class', 'quiet small')
    .attr('x', -10)
    .attr('y', 2)
    .attr('text-anchor', 'end')
    .text(northText(report, width < 500, words));
}

function northText(report: Report, narrow: boolean, words: FigureWords): string {
  const n = report.norths;
  if (n === null) return words.gridNorth(narrow);
  const turn = n.declinationDegrees - n.convergenceDegrees;
  return words.norths(Math.abs(turn).toFixed(1), turn >= 0, n.model, n.date, narrow);
}
