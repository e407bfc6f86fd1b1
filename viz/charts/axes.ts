import type { ScaleLinear } from 'd3';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';

export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function line(into: Group, kind: string, x1: number, y1: number, x2: number, y2: number): void {
  into
    .append('line')
    .attr('class', kind)
    .attr('x1', px(x1))
    .attr('y1', px(y1))
    .attr('x2', px(x2))
    .attr('y2', px(y2));
}

/** 0–100 on the left with quiet lines across; the unit stands above the axis, level, to be read without turning the head. */
export function shareAxis(into: Group, y: ScaleLinear<number, number>, frame: Frame, unit: string): void {
  for (const share of [0, 0.25, 0.5, 0.75, 1]) {
    line(into, share === 0 ? 'axis' : 'grid', frame.left, y(share), frame.right, y(share));
    into
      .append('text')
      .attr('class', 'quiet')
      .attr('x', px(frame.left - 8))
      .attr('y', px(y(share)))
      .attr('dy', '0.35em')
      .attr('text-anchor', 'end')
      .text(String(share * 100));
  }
  into
    .append('text')
    .attr('class', 'quiet small')
    .attr('x', 0)
    .attr('y', px(frame.top - 16))
    .text(unit);
}

/** Minutes along the foot. A long unit is broken into lines that fit. */
export function minuteAxis(into: Group, x: ScaleLinear<number, number>, frame: Frame, unit: string): void {
  const wide = frame.right - frame.left;
  for (const t of x.ticks(wide > 500 ? 8 : 5)) {
    line(into, 'axis', x(t), frame.bottom, x(t), frame.bottom + 5);
    into
      .append('text')
      .attr('class', 'quiet')
      .attr('x', px(x(t)))
      .attr('y', px(frame.bottom + 20))
      .attr('text-anchor', 'middle')
      .text(String(t));
  }
  into
    .append('text')
    .attr('class', 'quiet small')
    .attr('x', px(frame.right))
    .attr('y', px(frame.bottom + 40))
    .attr('text-anchor', 'end')
    .text(unit);
}
