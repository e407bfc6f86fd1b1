import { area, extent, line, scaleLinear } from 'd3';
import type { Candidate } from '../../src/report/report.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { routeStyle } from '../theme/route-style.ts';
import { fitted, textWidth } from '../theme/text-width.ts';
import { hundredText, kilometres, ofHundred, TECHNIQUE_NAMES } from '../theme/words.ts';

export interface StripData {
  readonly candidate: Candidate;
  /** Metres that fill the width: the same for all routes of a report, so that strips compare. */
  readonly fullMetres: number;
  /** Heights that fill the profile, shared too. */
  readonly heights: readonly [number, number];
  readonly cloudBaseMetres: number | null;
}

/**
 * A route drawn out straight: its height with the cloud base, its legs with what each meets, and below, leg by leg, how many parties
 * of 100 begin to be lost there.
 */
export function legStrip(data: StripData, options: FigureOptions): SVGSVGElement {
  const { candidate: c, fullMetres } = data;
  const { width } = options;
  const layout = {
    left: 46,
    right: width - 10,
    top: 20,
    foot: 108,
    legs: 124,
    ticks: 140,
    lost: 166,
    end: 214,
  };
  const svg = startFigure(options, {
    height: layout.end,
    kind: 'strip',
    title: `Route ${c.letter} leg by leg`,
    description: c.legs
      .map(
        (l, i) =>
          `${i + 1}, ${TECHNIQUE_NAMES[l.technique]} ${kilometres(l.distanceMetres)}: ${ofHundred(l.lostHereShare)} lost from here`,
      )
      .join('; '),
  });
  const g: Group = svg.append('g').attr('class', routeStyle(c.letter).classes).attr('data-route', c.letter);
  const x = scaleLinear([0, fullMetres], [layout.left, layout.right]);
  const y = scaleLinear([data.heights[0], data.heights[1]], [layout.foot, layout.top]);
  drawHeight(g, data, x, y, layout);

  const total = c.legs.reduce((sum, l) => sum + l.distanceMetres, 0);
  // Legs are measured as planned, the profile along the line: one is stretched onto the other.
  const stretch = total > 0 ? c.distanceMetres / total : 1;
  const most = Math.max(0.1, ...c.legs.map((l) => l.lostHereShare));
  let walked = 0;
  c.legs.forEach((l, i) => {
    const from = x(walked * stretch);
    walked += l.distanceMetres;
    const to = x(walked * stretch);
    g.append('line')
      .attr('class', 'leg-edge')
      .attr('x1', px(to))
      .attr('x2', px(to))
      .attr('y1', layout.top)
      .attr('y2', layout.lost + 14);
    g.append('line')
      .attr(
        'class',
        l.technique === 'handrail' ? 'leg-handrail' : `leg-open${l.technique === 'sight' ? ' fine' : ''}`,
      )
      .attr('x1', px(from + 1.5))
      .attr('x2', px(Math.max(from + 2.5, to - 1.5)))
      .attr('y1', layout.legs)
      .attr('y2', layout.legs);
    const name = `${i + 1} ${TECHNIQUE_NAMES[l.technique]}`;
    const room = to - from - 6;
    g.append('text')
      .attr('class', 'small')
      .attr('x', px((from + to) / 2))
      .attr('y', layout.ticks + 4)
      .attr('text-anchor', 'middle')
      .text(room > 44 ? fitted(name, 12.5, room) : String(i + 1));
    for (const tick of l.ticks) {
      const at = from + Math.min(1, tick.atMetres / Math.max(1, l.distanceMetres)) * (to - from);
      g.append('circle')
        .attr('class', 'tick-mark')
        .attr('cx', px(at))
        .attr('cy', layout.legs)
        .attr('r', 3.2)
        .append('title')
        .text(tick.name);
    }
    const tall = (l.lostHereShare / most) * 26;
    const bar = Math.max(4, Math.min(22, to - from - 4));
    const middle = (from + to) / 2;
    g.append('rect')
      .attr('class', 'lost-bar')
      .attr('x', px(middle - bar / 2))
      .attr('y', layout.lost)
      .attr('width', px(bar))
      .attr('height', px(Math.max(l.lostHereShare > 0 ? 1 : 0, tall)));
    g.append('text')
      .attr('class', 'small')
      .attr('x', px(middle))
      .attr('y', px(layout.lost + tall + 14))
      .attr('text-anchor', 'middle')
      .text(hundredText(l.lostHereShare));
  });
  g.append('text')
    .attr('class', 'quiet small')
    .attr('x', 0)
    .attr('y', layout.lost + 12)
    .text('lost');
  return finished(svg);
}

function drawHeight(
  g: Group,
  data: StripData,
  x: (v: number) => number,
  y: ReturnType<typeof scaleLinear<number, number>>,
  layout: { left: number; right: number; top: number; foot: number },
): void {
  const c = data.candidate;
  const end = x(c.distanceMetres);
  const fill = area<readonly [number, number]>(
    (p) => x(p[0]),
    layout.foot,
    (p) => y(p[1]),
  ).digits(1);
  const top = line<readonly [number, number]>(
    (p) => x(p[0]),
    (p) => y(p[1]),
  ).digits(1);
  g.append('path').attr('class', 'height-area').attr('d', fill(c.profile));
  const [low, high] = data.heights;
  const base = data.cloudBaseMetres;
  if (base !== null && base < high) {
    const at = y(Math.max(low, base));
    g.append('rect')
      .attr('class', 'cloud')
      .attr('x', layout.left)
      .attr('y', layout.top)
      .attr('width', px(end - layout.left))
      .attr('height', px(at - layout.top));
    if (base > low) {
      g.append('line')
        .attr('class', 'cloud-base')
        .attr('x1', layout.left)
        .attr('x2', px(end))
        .attr('y1', px(at))
        .attr('y2', px(at));
    }
  }
  g.append('path').attr('class', 'height-line').attr('d', top(c.profile));
  for (const t of [low, high]) {
    g.append('text')
      .attr('class', 'quiet small')
      .attr('x', layout.left - 8)
      .attr('y', px(y(t)))
      .attr('dy', '0.35em')
      .attr('text-anchor', 'end')
      .text(String(Math.round(t)));
  }
  g.append('text')
    .attr('class', 'quiet small')
    .attr('x', 0)
    .attr('y', layout.top - 11)
    .text('height, m');
  if (base !== null && base > low && base < high) {
    const said = `cloud base ${Math.round(base)} m`;
    if (textWidth(said, 12.5) < end - layout.left) {
      g.append('text')
        .attr('class', 'quiet small on-paper')
        .attr('x', layout.left + 4)
        .attr('y', px(y(base) - 5))
        .text(said);
    }
  }
}

/** Lowest and highest of all profiles, rounded out to tens, with at least 40 m between. */
export function sharedHeights(candidates: readonly Candidate[]): readonly [number, number] {
  const [low = 0, high = 0] = extent(candidates.flatMap((c) => c.profile.map((p) => p[1])));
  const bottom = Math.floor(low / 10) * 10;
  return [bottom, Math.max(Math.ceil(high / 10) * 10, bottom + 40)];
}
