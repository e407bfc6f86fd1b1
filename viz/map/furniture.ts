import type { Report } from '../../src/report/report.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { textWidth } from '../theme/text-width.ts';
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
  const north = northText(report, view.width < 500, words);
  drawScaleBar(foot, barBeside(view, words, view.width - 0.93 * textWidth(north, SMALL)), view.scale);
  drawNorth(foot, view.width, north);
}

/** px: the size of small text, and what lies between the two notes below the map, the arrow and the gap before the bar's text. */
const SMALL = 13;
const BETWEEN = 32;

/** The longest bar up to a share of the map that leaves room for what stands on its right. */
function barBeside(view: View, words: FigureWords, room: number): Bar {
  let wide = view.width * (view.width < 500 ? 0.3 : 0.2);
  for (let tries = 0; ; tries++, wide *= 0.7) {
    const bar = roundBar(wide / view.scale, words.measures.units);
    if (tries === 6 || bar.metres * view.scale + textWidth(bar.text, SMALL) + BETWEEN < room) return bar;
  }
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
function drawNorth(into: Group, width: number, text: string): void {
  const g: Group = into.append('g').attr('transform', `translate(${px(width - 8)},0)`);
  g.append('path').attr('class', 'scale-line').attr('d', 'M0,4V-12M-3.5,-7L0,-12L3.5,-7');
  g.append('text')
    .attr('class', 'quiet small')
    .attr('x', -10)
    .attr('y', 2)
    .attr('text-anchor', 'end')
    .text(text);
}

function northText(report: Report, narrow: boolean, words: FigureWords): string {
  const n = report.norths;
  if (n === null) return words.gridNorth(narrow);
  const turn = n.declinationDegrees - n.convergenceDegrees;
  return words.norths(Math.abs(turn).toFixed(1), turn >= 0, n.model, n.date, narrow);
}
