import { extent, scaleLinear } from 'd3';
import type { Candidate } from '../../src/report/report.ts';
import { drawBadge } from '../theme/badge.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { routeStyle } from '../theme/route-style.ts';
import { minuteAxis, shareAxis } from './axes.ts';

export interface TimeSuccessData {
  readonly candidates: readonly Candidate[];
  /** Ids of the routes that no other beats in both. */
  readonly unbeaten: readonly string[];
}

interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/**
 * Minutes (p10, median, p90) against the share that finds the target: a thick bar for sampling, a thin one for assumptions once they
 * are varied, the letter filled where the route is unbeaten.
 */
export function timeSuccess(data: TimeSuccessData, options: FigureOptions): SVGSVGElement {
  const { width, words = ENGLISH } = options;
  const height = Math.round(Math.min(440, width * 0.62 + 110));
  const frame = { left: 46, right: width - 16, top: 34, bottom: height - 46 };
  const svg = startFigure(options, {
    height,
    kind: 'time-success',
    title: words.timeAgainstSuccess,
    description: data.candidates
      .map(
        (c) =>
          `${c.letter}: ${words.minutesAndCount(Math.round(c.minutes.p50), words.ofHundred(c.success.share))}`,
      )
      .join('; '),
  });
  const [first = 0, last = 1] = extent(data.candidates.flatMap((c) => [c.minutes.p10, c.minutes.p90]));
  const pad = Math.max(2, (last - first) * 0.08);
  const x = scaleLinear([Math.max(0, first - pad), last + pad], [frame.left, frame.right]).nice(6);
  const y = scaleLinear([0, 1], [frame.bottom, frame.top]);

  const axes = svg.append('g');
  shareAxis(axes, y, frame, words.foundOfHundred);
  minuteAxis(axes, x, frame, width > 500 ? words.minutesAll : words.minutesAllShort);

  const marks: Group = svg.append('g');
  const taken: Box[] = [];
  for (const c of data.candidates) {
    const cx = x(c.minutes.p50);
    const top = y(c.success.high);
    const bottom = y(c.success.low);
    taken.push({ x0: cx - 9, y0: top - 4, x1: cx + 9, y1: bottom + 4 });
    if (c.assumption)
      taken.push({ x0: cx - 3, y0: y(c.assumption.high), x1: cx + 3, y1: y(c.assumption.low) });
  }
  for (const c of data.candidates) {
    const g: Group = marks
      .append('g')
      .attr('class', routeStyle(c.letter).classes)
      .attr('data-route', c.letter);
    const cx = x(c.minutes.p50);
    const cy = y(c.success.share);
    const line = (kind: string, x1: number, y1: number, x2: number, y2: number) =>
      g
        .append('line')
        .attr('class', kind)
        .attr('x1', px(x1))
        .attr('y1', px(y1))
        .attr('x2', px(x2))
        .attr('y2', px(y2));
    line('reach', x(c.minutes.p10), cy, x(c.minutes.p90), cy);
    line('reach', x(c.minutes.p10), cy - 4, x(c.minutes.p10), cy + 4);
    line('reach', x(c.minutes.p90), cy - 4, x(c.minutes.p90), cy + 4);
    if (c.assumption) line('assumption', cx, y(c.assumption.low), cx, y(c.assumption.high));
    const tall = Math.max(5, y(c.success.low) - y(c.success.high));
    g.append('rect')
      .attr('class', 'sampling')
      .attr('x', px(cx - 7))
      .attr('y', px((y(c.success.low) + y(c.success.high) - tall) / 2))
      .attr('width', 14)
      .attr('height', px(tall));
    const spot = freeSpot(cx, cy, taken, frame);
    taken.push({ x0: spot.x - 12, y0: spot.y - 12, x1: spot.x + 12, y1: spot.y + 12 });
    drawBadge(g, c.letter, spot, data.unbeaten.includes(c.id));
  }
  return finished(svg);
}

/** On its own hairline first, then off it. */
const SIDES = [
  [1, 0],
  [-1, 0],
  [0.85, -0.85],
  [-0.85, -0.85],
  [0.85, 0.85],
  [-0.85, 0.85],
  [0, -1.2],
  [0, 1.2],
] as const;

/** Around the mark, the first place for a letter that covers nothing. */
function freeSpot(
  cx: number,
  cy: number,
  taken: readonly Box[],
  frame: { left: number; right: number; top: number; bottom: number },
): { x: number; y: number } {
  for (const reach of [20, 28, 38]) {
    for (const [dx, dy] of SIDES) {
      const x = cx + dx * reach;
      const y = cy + dy * reach;
      const inside =
        x > frame.left + 10 && x < frame.right - 10 && y > frame.top - 8 && y < frame.bottom - 10;
      if (inside && !taken.some((b) => x + 11 > b.x0 && x - 11 < b.x1 && y + 11 > b.y0 && y - 11 < b.y1)) {
        return { x, y };
      }
    }
  }
  return { x: cx + 17, y: cy - 17 };
}
