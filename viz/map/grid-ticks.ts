import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import type { LabelRoom } from './label-room.ts';
import type { View } from './view.ts';

/** Ticks on all four sides at round metres of the grid, so that the grid can be ruled across, with their kilometres. */
export function drawTicks(into: Group, view: View, room: LabelRoom, step: number, size: number): void {
  const tick = (x1: number, y1: number, x2: number, y2: number) =>
    into
      .append('line')
      .attr('class', 'grid-tick')
      .attr('x1', px(x1))
      .attr('y1', px(y1))
      .attr('x2', px(x2))
      .attr('y2', px(y2));
  const say = (x: number, y: number, metres: number, anchor: 'start' | 'middle') => {
    const left = anchor === 'start' ? x : x - 20;
    room.take({ x0: left, x1: left + 40, y0: y - size, y1: y + 3 });
    into
      .append('text')
      .attr('class', 'grid-number on-paper')
      .attr('x', px(x))
      .attr('y', px(y))
      .attr('text-anchor', anchor)
      .text((metres / 1000).toFixed(step % 1000 === 0 ? 0 : step % 100 === 0 ? 1 : 2));
  };
  for (const e of roundMetres(view.bounds.west, view.bounds.east, step)) {
    const x = view.x(e);
    tick(x, 0, x, 7);
    tick(x, view.height - 7, x, view.height);
    if (x > 24 && x < view.width - 24) say(x, size + 8, e, 'middle');
  }
  for (const n of roundMetres(view.bounds.south, view.bounds.north, step)) {
    const y = view.y(n);
    tick(0, y, 7, y);
    tick(view.width - 7, y, view.width, y);
    if (y > 30 && y < view.height - 20) say(11, y + size * 0.35, n, 'start');
  }
}

/** A small cross where grid lines would meet: enough to lay a protractor or a romer to, and no net over the ground. */
export function drawGridCrosses(into: Group, view: View, step: number): void {
  let d = '';
  for (const e of roundMetres(view.bounds.west, view.bounds.east, step)) {
    for (const n of roundMetres(view.bounds.south, view.bounds.north, step)) {
      d += `M${px(view.x(e) - 4)},${px(view.y(n))}h8m-4,-4v8`;
    }
  }
  into.append('path').attr('class', 'grid-tick').attr('d', d);
}

function roundMetres(from: number, to: number, step: number): number[] {
  const first = Math.ceil(from / step);
  const count = Math.max(0, Math.floor(to / step) - first + 1);
  return Array.from({ length: count }, (_, i) => (first + i) * step);
}
