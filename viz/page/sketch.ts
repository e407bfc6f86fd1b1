import type { Point } from '../../src/math/plane.ts';
import type { View } from '../map/view.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';

/** What is being drawn, over everything else. */
export interface Sketch {
  /** The route that is being changed, as far as it is known. */
  readonly line: readonly Point[] | null;
  readonly hue: number;
  /** Its movable points. */
  readonly handles: readonly Point[];
  readonly chosen: number | null;
  readonly carried: boolean;
  /** A line or area that is not finished. */
  readonly begun: readonly Point[];
  /** The cross of the keyboard. */
  readonly cursor: Point | null;
}

/** The line that moves, under the letters and the ends of the task. */
export function drawSketchLine(into: Group, { line, hue }: Sketch, view: View): void {
  into.attr('class', `hue-${hue}`);
  const d = line === null ? null : pathOf(line, view);
  into
    .selectAll<SVGPathElement, string>('path')
    .data(d === null ? [] : ['sketch-casing', 'sketch-line'])
    .join('path')
    .attr('class', (kind) => kind)
    .attr('d', d);
}

/** Points to take hold of, what has been begun, and the cross: over everything. */
export function drawSketchPoints(into: Group, sketch: Sketch, view: View): void {
  const { hue, handles, chosen, carried, begun, cursor } = sketch;
  into.attr('class', `sketch hue-${hue}`);
  into
    .selectAll<SVGPathElement, Point[]>('path.begun')
    .data(begun.length > 0 ? [begun] : [])
    .join('path')
    .attr('class', 'begun')
    .attr('d', (line) => pathOf(line, view));
  circles(into, 'begun-point', begun, view).attr('class', 'begun-point').attr('r', 4);
  circles(into, 'handle', handles, view)
    .attr('class', (_, i) => {
      const taken = i === chosen;
      return `handle${taken ? ' chosen' : ''}${taken && carried ? ' carried' : ''}`;
    })
    .attr('data-handle', (_, i) => i)
    .attr('r', (_, i) => (i === chosen ? 9 : 7));
  into
    .selectAll<SVGPathElement, Point>('path.cursor')
    .data(cursor === null ? [] : [cursor])
    .join('path')
    .attr('class', 'cursor')
    .attr('d', (at) => crossAt(view.x(at[0]), view.y(at[1])));
}

function circles(into: Group, kind: string, points: readonly Point[], view: View) {
  return into
    .selectAll<SVGCircleElement, Point>(`circle.${kind}`)
    .data(points)
    .join('circle')
    .attr('cx', (p) => px(view.x(p[0])))
    .attr('cy', (p) => px(view.y(p[1])));
}

function pathOf(line: readonly Point[], view: View): string {
  return line.map((p, i) => `${i === 0 ? 'M' : 'L'}${px(view.x(p[0]))},${px(view.y(p[1]))}`).join('');
}

function crossAt(x: number, y: number): string {
  return `M${px(x - 14)},${px(y)}H${px(x - 4)}M${px(x + 4)},${px(y)}H${px(x + 14)}M${px(x)},${px(y - 14)}V${px(y - 4)}M${px(x)},${px(y + 4)}V${px(y + 14)}`;
}
