import { distanceToSegment, lineLength, type Point, pointAlong } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import { drawBadge } from '../theme/badge.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { routeStyle } from '../theme/route-style.ts';
import type { LabelRoom } from './label-room.ts';
import { pathData } from './path-data.ts';
import type { View } from './view.ts';

/** Routes on a paper casing, the unbeaten ones on top. */
export function drawRoutes(into: Group, report: Report, view: View): void {
  const lowFirst = [...report.candidates].sort(
    (a, b) => Number(report.unbeaten.includes(a.id)) - Number(report.unbeaten.includes(b.id)),
  );
  for (const c of lowFirst) {
    const style = routeStyle(c.letter);
    const g = into.append('g').attr('class', style.classes).attr('data-route', c.letter);
    const d = pathData(c.line, view);
    g.append('path').attr('class', 'route-casing').attr('d', d);
    g.append('path').attr('class', `route-line ${style.dash}`).attr('d', d);
  }
}

/** The letter of each route near both its ends, where it lies furthest from the other routes. */
export function drawLetters(into: Group, report: Report, view: View, room: LabelRoom): void {
  const flat = report.candidates.map((c) => c.line.map((p) => [view.x(p[0]), view.y(p[1])] as const));
  const placed: Point[] = [];
  for (const end of ['start', 'target'] as const) {
    report.candidates.forEach((c, i) => {
      const at = quietestPlace(flat, i, end, placed, view, room);
      if (at === null) return;
      placed.push(at);
      room.takeRound(at[0], at[1], 9);
      drawBadge(into, c.letter, { x: at[0], y: at[1] }, report.unbeaten.includes(c.id), 8.5);
    });
  }
}

function quietestPlace(
  lines: readonly (readonly Point[])[],
  self: number,
  end: 'start' | 'target',
  placed: readonly Point[],
  view: View,
  room: LabelRoom,
): Point | null {
  const line = lines[self]!;
  const total = lineLength(line);
  let best: Point | null = null;
  let bestScore = 0;
  for (let k = 1; k <= 24; k++) {
    const away = 22 + (k / 24) * Math.max(0, total * 0.42 - 22);
    const p = pointAlong(line, end === 'start' ? away : total - away);
    if (p[0] < 12 || p[1] < 12 || p[0] > view.width - 12 || p[1] > view.height - 12) continue;
    const others = lines.map((l, i) => (i === self ? 40 : nearest(p, l)));
    const letters = placed.map((q) => Math.hypot(p[0] - q[0], p[1] - q[1]));
    if (letters.some((d) => d < 19)) continue;
    // on a name or a sign only where there is no other place: a route keeps its letter
    const taken = room.free({ x0: p[0] - 9, y0: p[1] - 9, x1: p[0] + 9, y1: p[1] + 9 }) ? 0 : 29;
    const score = Math.min(30, ...others) + Math.min(30, ...letters) - (away / total) * 24 + 30 - taken;
    if (score > bestScore) {
      bestScore = score;
      best = p;
    }
  }
  return best;
}

function nearest(p: Point, line: readonly Point[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 1; i < line.length; i++) best = Math.min(best, distanceToSegment(p, line[i - 1]!, line[i]!));
  return best;
}

/** Start S in a square, target T in a cross. */
export function drawEnds(into: Group, report: Report, view: View, room: LabelRoom): void {
  const { start, target } = report.task;
  const sign = (at: Point, letter: string, outline: string) => {
    const [x, y] = [view.x(at[0]), view.y(at[1])];
    const g = into
      .append('g')
      .attr('class', 'task-end')
      .attr('transform', `translate(${px(x)},${px(y)})`);
    g.append('path').attr('d', outline);
    g.append('text').attr('dy', '0.36em').attr('text-anchor', 'middle').text(letter);
    room.takeRound(x, y, 12);
  };
  sign(start.at, 'S', 'M-9,-9H9V9H-9Z');
  sign(target.at, 'T', 'M-6,-12H6V-6H12V6H6V12H-6V6H-12V-6H-6Z');
}
