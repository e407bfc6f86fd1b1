import { line, max, scaleLinear } from 'd3';
import type { Candidate } from '../../src/report/report.ts';
import { drawBadge } from '../theme/badge.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { routeStyle } from '../theme/route-style.ts';
import { spread } from '../theme/spread.ts';
import { hundredText } from '../theme/words.ts';
import { minuteAxis, shareAxis } from './axes.ts';

export interface FoundByData {
  readonly candidates: readonly Candidate[];
  readonly unbeaten: readonly string[];
  readonly limitMinutes: number | null;
}

/** Share of all parties that have found the target within x minutes, one curve per route, its letter at the end. */
export function foundBy(data: FoundByData, options: FigureOptions): SVGSVGElement {
  const { width, words = ENGLISH } = options;
  const height = Math.round(Math.min(420, width * 0.55 + 120));
  const frame = { left: 46, right: width - 74, top: 34, bottom: height - 46 };
  const svg = startFigure(options, {
    height,
    kind: 'found-by',
    title: words.foundWithin,
    description: data.candidates
      .map(
        (c) => `${c.letter}: ${words.inTheEnd(words.ofHundred(c.foundBy[c.foundBy.length - 1]?.[1] ?? 0))}`,
      )
      .join('; '),
  });
  const end = usefulEnd(data);
  const x = scaleLinear([0, end], [frame.left, frame.right]);
  const y = scaleLinear([0, 1], [frame.bottom, frame.top]);
  const axes: Group = svg.append('g');
  shareAxis(axes, y, frame, words.foundOfHundred);
  minuteAxis(axes, x, frame, words.minutesSince);
  if (data.limitMinutes !== null && data.limitMinutes <= end) {
    const at = x(data.limitMinutes);
    axes
      .append('line')
      .attr('class', 'limit')
      .attr('x1', px(at))
      .attr('x2', px(at))
      .attr('y1', frame.top)
      .attr('y2', frame.bottom);
    axes
      .append('text')
      .attr('class', 'quiet small')
      .attr('x', px(at))
      .attr('y', frame.top - 16)
      .attr('text-anchor', 'end')
      .text(words.limit(data.limitMinutes));
  }

  const draw = line<readonly [number, number]>(
    (p) => x(p[0]),
    (p) => y(p[1]),
  ).digits(1);
  const curves: Group = svg.append('g');
  // A curve is nought before its first minute and level after its last.
  const inside = data.candidates.map((c): (readonly [number, number])[] => {
    const kept = c.foundBy.filter((p) => p[0] <= end);
    return [[0, 0], ...kept, [end, kept[kept.length - 1]?.[1] ?? 0]];
  });
  const lasts = inside.map((points) => points[points.length - 1] ?? ([0, 0] as const));
  // The letters that matter most are drawn last, on top.
  data.candidates.forEach((c, i) => {
    const style = routeStyle(c.letter);
    const g = curves.append('g').attr('class', style.classes).attr('data-route', c.letter);
    const d = draw(inside[i]!) ?? '';
    g.append('path').attr('class', 'curve-casing').attr('d', d);
    g.append('path').attr('class', `curve ${style.dash}`).attr('d', d);
  });
  const labels: Group = svg.append('g');
  const places = spread(
    lasts.map((p) => y(p[1])),
    23,
    frame.top,
    frame.bottom - 6,
  );
  data.candidates.forEach((c, i) => {
    const style = routeStyle(c.letter);
    const g: Group = labels.append('g').attr('class', style.classes).attr('data-route', c.letter);
    const last = lasts[i]!;
    g.append('line')
      .attr('class', 'leader')
      .attr('x1', px(x(last[0]) + 2))
      .attr('y1', px(y(last[1])))
      .attr('x2', px(frame.right + 20))
      .attr('y2', px(places[i]!));
    drawBadge(g, c.letter, { x: frame.right + 26, y: places[i]! }, data.unbeaten.includes(c.id));
    g.append('text')
      .attr('x', px(frame.right + 42))
      .attr('y', px(places[i]!))
      .attr('dy', '0.35em')
      .text(hundredText(last[1]));
  });
  return finished(svg);
}

/** The axis ends a little after the last curve has flattened, not at a limit an hour later. */
function usefulEnd(data: FoundByData): number {
  const flat = data.candidates.map((c) => {
    const final = c.foundBy[c.foundBy.length - 1]?.[1] ?? 0;
    return c.foundBy.find((p) => p[1] >= final - 0.004)?.[0] ?? 0;
  });
  const last = max(data.candidates, (c) => c.foundBy[c.foundBy.length - 1]?.[0] ?? 0) ?? 1;
  const wanted = Math.max((max(flat) ?? 0) * 1.08, 5);
  return Math.min(last > 0 ? last : 1, Math.ceil(wanted / 5) * 5);
}
