import type { Report } from '../../src/report/report.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import type { LabelRoom } from './label-room.ts';
import type { View } from './view.ts';

/** The round length (1, 2 or 5 × 10ⁿ metres) at or below this one. */
export function niceLength(metres: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, metres)));
  const digit = metres / power;
  return power * (digit >= 5 ? 5 : digit >= 2 ? 2 : 1);
}

/** Frame, grid ticks with their kilometres at the edge, scale bar and north below. */
export function drawFurniture(into: Group, report: Report, view: View, room: LabelRoom, size: number): void {
  into.append('rect').attr('class', 'neatline').attr('width', px(view.width)).attr('height', px(view.height));
  drawTicks(into, view, room, size);
  const foot: Group = into.append('g').attr('transform', `translate(0,${px(view.height + 22)})`);
  const bar = niceLength(Math.min(view.width * 0.3, 260) / view.scale);
  drawScaleBar(foot, bar, view.scale);
  drawNorth(foot, report, view.width);
}

/** Ticks on all four sides at round metres of the grid, so that the grid can be ruled across; two labels per side are enough. */
function drawTicks(into: Group, view: View, room: LabelRoom, size: number): void {
  const step = niceLength((view.bounds.east - view.bounds.west) / 3);
  const tick = (x1: number, y1: number, x2: number, y2: number) =>
    into
      .append('line')
      .attr('class', 'grid-tick')
      .attr('x1', px(x1))
      .attr('y1', px(y1))
      .attr('x2', px(x2))
      .attr('y2', px(y2));
  const say = (x: number, y: number, metres: number, anchor: string) => {
    room.take({
      x0: anchor === 'start' ? x : x - 20,
      x1: anchor === 'start' ? x + 40 : x + 20,
      y0: y - size,
      y1: y + 3,
    });
    into
      .append('text')
      .attr('class', 'grid-number on-paper')
      .attr('x', px(x))
      .attr('y', px(y))
      .attr('text-anchor', anchor)
      .text(kilometreText(metres, step));
  };
  for (let e = Math.ceil(view.bounds.west / step) * step; e <= view.bounds.east; e += step) {
    const x = view.x(e);
    tick(x, 0, x, 7);
    tick(x, view.height - 7, x, view.height);
    if (x > 24 && x < view.width - 24) say(x, size + 8, e, 'middle');
  }
  for (let n = Math.ceil(view.bounds.south / step) * step; n <= view.bounds.north; n += step) {
    const y = view.y(n);
    tick(0, y, 7, y);
    tick(view.width - 7, y, view.width, y);
    if (y > 30 && y < view.height - 20) say(11, y + size * 0.35, n, 'start');
  }
}

function kilometreText(metres: number, step: number): string {
  return (metres / 1000).toFixed(step % 1000 === 0 ? 0 : step % 100 === 0 ? 1 : 2);
}

function drawScaleBar(into: Group, metres: number, scale: number): void {
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
    .text(metres >= 1000 ? `${metres / 1000} km` : `${metres} m`);
}

/** Grid north points up the sheet; the other needle shows magnetic north, its angle drawn large and said in figures. */
function drawNorth(into: Group, report: Report, width: number): void {
  const g: Group = into.append('g').attr('transform', `translate(${px(width - 8)},0)`);
  g.append('path').attr('class', 'scale-line').attr('d', 'M0,4V-12M-3.5,-7L0,-12L3.5,-7');
  g.append('text')
    .attr('class', 'quiet small')
    .attr('x', -10)
    .attr('y', 2)
    .attr('text-anchor', 'end')
    .text(northText(report, width));
}

function northText(report: Report, width: number): string {
  const n = report.norths;
  if (n === null)
    return width < 500 ? 'grid north' : 'grid north is up; no date given, so no magnetic bearings';
  const turn = n.declinationDegrees - n.convergenceDegrees;
  const side = turn < 0 ? 'west' : 'east';
  const degrees = Math.abs(turn).toFixed(1);
  return width < 500
    ? `grid north; magnetic ${degrees}° ${side}`
    : `grid north is up; magnetic north lies ${degrees}° ${side} of it (${n.model}, ${n.date})`;
}
