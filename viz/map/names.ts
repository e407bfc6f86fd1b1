import { extent, polygonContains } from 'd3';
import type { Point } from '../../src/math/plane.ts';
import { nearestOnLine } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { doubtDash } from '../theme/route-style.ts';
import { textWidth } from '../theme/text-width.ts';
import { areaStyle, lineStyle, pointStyle, UNSIGNED } from './kind-style.ts';
import type { LabelRoom, Place } from './label-room.ts';
import type { SheetFacts } from './sheet.ts';
import type { View } from './view.ts';

/** Hollow signs of the point features in view. */
export function drawPoints(into: Group, report: Report, view: View, room: LabelRoom): void {
  for (const f of report.features) {
    if (f.geometry.type !== 'point' || UNSIGNED.has(f.kind)) continue;
    const [x, y] = [view.x(f.geometry.at[0]), view.y(f.geometry.at[1])];
    if (x < 4 || y < 4 || x > view.width - 4 || y > view.height - 4) continue;
    const style = pointStyle(f.kind);
    const g = into.append('g').attr('class', `point ${style} ${doubtDash(f.exists)}`);
    if (style === 'built') {
      g.append('rect')
        .attr('x', px(x - 4))
        .attr('y', px(y - 4))
        .attr('width', 8)
        .attr('height', 8);
    } else if (style === 'landform') {
      g.append('path').attr(
        'd',
        `M${px(x - 5)},${px(y + 4)}L${px(x)},${px(y - 5)}L${px(x + 5)},${px(y + 4)}Z`,
      );
    } else {
      g.append('circle')
        .attr('cx', px(x))
        .attr('cy', px(y))
        .attr('r', style === 'water' ? 4.5 : 3.6);
    }
    room.takeRound(x, y, 5);
  }
}

/** The names of start and target: they take their room before anything else does. */
export function drawEndNames(
  into: Group,
  report: Report,
  view: View,
  room: LabelRoom,
  size: number,
  words: FigureWords = ENGLISH,
): void {
  const label = writer(into);
  for (const end of [report.task.start, report.task.target]) {
    const name = words.shownName(end.name);
    label(room.beside(view.x(end.at[0]), view.y(end.at[1]), name, size + 2, 15), name, 'end');
  }
}

/** Writes a text at a place, or nothing where there was none. */
function writer(into: Group): (at: Place | null, text: string, kind: string) => void {
  return (at, text, kind) => {
    if (at === null) return;
    into
      .append('text')
      .attr('class', `name on-paper ${kind}`)
      .attr('x', px(at.x))
      .attr('y', px(at.y))
      .attr('text-anchor', at.anchor === 'start' ? null : at.anchor)
      .text(text);
  };
}

/** Names of points, then of lines and areas, as far as there is room. */
export function drawNames(
  into: Group,
  report: Report,
  view: View,
  room: LabelRoom,
  size: number,
  words: FigureWords = ENGLISH,
): void {
  const ends = [report.task.start.at, report.task.target.at];
  const label = writer(into);
  for (const f of report.features) {
    if (f.name === null || f.geometry.type !== 'point') continue;
    const p = f.geometry.at;
    if (ends.some((e) => Math.abs(e[0] - p[0]) < 1 && Math.abs(e[1] - p[1]) < 1)) continue;
    const name = words.shownName(f.name, f.kind);
    const at = room.beside(view.x(p[0]), view.y(p[1]), name, size, 8);
    label(at, name, pointStyle(f.kind) === 'water' ? 'blue' : '');
  }
  for (const f of report.features) {
    if (f.name === null || f.geometry.type === 'point') continue;
    if (f.geometry.type === 'line') {
      const water = lineStyle(f.kind) === 'water' || lineStyle(f.kind) === 'thin-water';
      alongLine(into, f.geometry.points, f.name, view, room, size, water ? 'blue' : '', 4);
      continue;
    }
    const middle = roomiest(f.geometry.rings[0] ?? [], view);
    if (middle === null) continue;
    const at =
      room.centred(middle.x, middle.y, f.name, size) ??
      room.beside(middle.x, middle.y, f.name, size, size * 0.6);
    label(at, f.name, areaStyle(f.kind) === 'lake' ? 'blue' : '');
  }
}

/** The place inside an area and inside the view that lies furthest from both their edges, to a sixteenth of the view. */
function roomiest(ring: readonly Point[], view: View): { x: number; y: number } | null {
  const line = ring.map((p) => [view.x(p[0]), view.y(p[1])] as const);
  let best: { x: number; y: number } | null = null;
  let most = 0;
  const [x0, x1] = extent(line, (p) => p[0]);
  const [y0, y1] = extent(line, (p) => p[1]);
  if (x0 === undefined || y0 === undefined) return null;
  const [left, right] = [Math.max(0, x0), Math.min(view.width, x1)];
  const [top, foot] = [Math.max(0, y0), Math.min(view.height, y1)];
  for (let i = 1; i < 16; i++) {
    for (let k = 1; k < 16; k++) {
      const x = left + ((right - left) * i) / 16;
      const y = top + ((foot - top) * k) / 16;
      if (!polygonContains(line as [number, number][], [x, y])) continue;
      const clear = Math.min(x, y, view.width - x, view.height - y, nearestOnLine([x, y], line).away);
      if (clear > most) {
        most = clear;
        best = { x, y };
      }
    }
  }
  return best;
}

/** Heights on the heavy contours, each once or twice where there is room. */
export function drawHeights(into: Group, facts: SheetFacts, view: View, room: LabelRoom, size: number): void {
  const longest = [...facts.heavy].sort((a, b) => b.line.length - a.line.length).slice(0, 14);
  for (const { height, line } of longest) alongLine(into, line, height, view, room, size, 'height', 0);
}

/** A text laid along a line where it runs straight and nothing else stands; nothing when there is no such place. */
function alongLine(
  into: Group,
  points: readonly Point[],
  text: string,
  view: View,
  room: LabelRoom,
  size: number,
  kind: string,
  lift: number,
): void {
  const half = textWidth(text, size) / 2;
  const line = points.map((p) => [view.x(p[0]), view.y(p[1])] as const);
  const reach = [0];
  for (let i = 1; i < line.length; i++) {
    reach.push(reach[i - 1]! + Math.hypot(line[i]![0] - line[i - 1]![0], line[i]![1] - line[i - 1]![1]));
  }
  const total = reach[reach.length - 1]!;
  if (total < half * 2.2) return;
  const places = [0.5, 0.36, 0.64, 0.24, 0.76, 0.14, 0.86];
  for (let i = 0; i < places.length * 2; i++) {
    const strict = i < places.length;
    const at = places[i % places.length]! * total;
    if (at < half || at > total - half) continue;
    const a = pointAt(line, reach, at - half);
    const b = pointAt(line, reach, at + half);
    const m = pointAt(line, reach, at);
    const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (chord < half * 1.8) continue;
    let angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI;
    if (angle > 90) angle -= 180;
    if (angle < -90) angle += 180;
    const tall = (Math.abs(b[1] - a[1]) + size) / 2 + lift;
    const wide = (Math.abs(b[0] - a[0]) + size) / 2;
    const box = { x0: m[0] - wide, x1: m[0] + wide, y0: m[1] - tall - lift, y1: m[1] + tall - lift };
    if (!room.free(box, strict)) continue;
    room.take(box);
    into
      .append('text')
      .attr('class', `name on-paper ${kind}`)
      .attr('text-anchor', 'middle')
      .attr('transform', `translate(${px(m[0])},${px(m[1])}) rotate(${px(angle)})`)
      .attr('dy', lift > 0 ? -lift : '0.35em')
      .text(text);
    return;
  }
}

function pointAt(
  line: readonly (readonly [number, number])[],
  reach: readonly number[],
  at: number,
): readonly [number, number] {
  let i = 1;
  while (i < line.length - 1 && reach[i]! < at) i++;
  const a = line[i - 1]!;
  const b = line[i]!;
  const span = reach[i]! - reach[i - 1]!;
  const t = span > 0 ? Math.max(0, Math.min(1, (at - reach[i - 1]!) / span)) : 0;
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}
