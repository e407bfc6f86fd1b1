import { area, extent, line, type ScaleLinear, scaleLinear } from 'd3';
import type { Candidate, ReportFeature } from '../../src/report/report.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { routeStyle } from '../theme/route-style.ts';
import { fitted, textWidth } from '../theme/text-width.ts';
import { hundredth } from '../theme/words.ts';
import { exposedStretches, NEAR_DROP } from './exposure.ts';
import { groundMet } from './ground-met.ts';
import { drawLostSquares } from './lost-squares.ts';

export interface StripData {
  readonly candidate: Candidate;
  readonly features: readonly ReportFeature[];
  /** Metres that fill the width: the same for all routes of a report, so that strips compare. */
  readonly fullMetres: number;
  /** Heights that fill the profile, shared too. */
  readonly heights: readonly [number, number];
  readonly cloudBaseMetres: number | null;
}

const LAYOUT = { top: 20, foot: 104, ground: 108, legs: 124, names: 145, meets: 161, lost: 174 };
type Scale = ScaleLinear<number, number>;

/**
 * A route drawn out straight: its height with the cloud base, the ground it crosses, its legs with what each meets, and below, leg by
 * leg, a square for each of 100 parties that leaves the line there and does not find the target.
 */
export function legStrip(data: StripData, options: FigureOptions): SVGSVGElement {
  const { candidate: c } = data;
  const { width, words = ENGLISH } = options;
  const most = Math.max(0, ...c.legs.map((l) => hundredth(l.lostHereShare)));
  const svg = startFigure(options, {
    height: LAYOUT.lost + Math.min(5, Math.max(1, most)) * 7 + 18,
    kind: 'strip',
    title: words.legByLeg(c.letter),
    description: c.legs
      .map((l, i) =>
        words.leavesHere(
          i + 1,
          words.techniques[l.technique],
          l.distanceMetres,
          words.ofHundred(l.lostHereShare),
        ),
      )
      .join('; '),
  });
  const g: Group = svg.append('g').attr('class', routeStyle(c.letter).classes).attr('data-route', c.letter);
  const x = scaleLinear([0, data.fullMetres], [46, width - 6]);
  const y = scaleLinear([data.heights[0], data.heights[1]], [LAYOUT.foot, LAYOUT.top]);
  drawHeight(g, data, x, y, words);
  drawGround(g, data, x, words);
  const spans = drawLegs(g, c, x, width, words);
  drawLostSquares(g, c.legs, spans, { top: LAYOUT.lost, low: 46, high: width });
  const off = g
    .append('text')
    .attr('class', 'quiet small')
    .attr('y', LAYOUT.lost + 10);
  off.append('tspan').attr('x', 0).text(words.offTheLine[0]);
  off.append('tspan').attr('x', 0).attr('dy', 15).text(words.offTheLine[1]);
  return finished(svg);
}

function drawHeight(g: Group, data: StripData, x: Scale, y: Scale, words: FigureWords): void {
  const { candidate: c, heights, cloudBaseMetres: base } = data;
  const [low, high] = heights;
  const [left, right] = [x(0), x(c.distanceMetres)];
  const cloudy = base !== null && base < high;
  if (cloudy) {
    const foot = y(Math.max(low, base));
    g.append('rect')
      .attr('class', 'cloud')
      .attr('x', px(left))
      .attr('y', LAYOUT.top)
      .attr('width', px(right - left))
      .attr('height', px(foot - LAYOUT.top));
  }
  // The ground stands in front of the cloud: where it rises into the grey, the party walks in it.
  const fill = area<readonly [number, number]>(
    (p) => x(p[0]),
    LAYOUT.foot,
    (p) => y(p[1]),
  ).digits(1);
  const top = line<readonly [number, number]>(
    (p) => x(p[0]),
    (p) => y(p[1]),
  ).digits(1);
  g.append('path').attr('class', 'height-area').attr('d', fill(c.profile));
  g.append('path').attr('class', 'height-line').attr('d', top(c.profile));
  drawExposure(g, data, x, y, words);
  const label = (text: string, at: number) =>
    g
      .append('text')
      .attr('class', 'quiet small')
      .attr('x', px(left - 8))
      .attr('y', px(at))
      .attr('dy', '0.35em')
      .attr('text-anchor', 'end')
      .text(text);
  label(String(words.measures.bare.height(low)), y(low) - 3);
  label(String(words.measures.bare.height(high)), y(high) + 3);
  g.append('text')
    .attr('class', 'quiet small')
    .attr('x', 0)
    .attr('y', LAYOUT.top - 10)
    .text(cloudy ? words.heightInCloud(Math.round(base)) : words.height);
  if (!cloudy || base <= low) return;
  g.append('line')
    .attr('class', 'cloud-base')
    .attr('x1', px(left))
    .attr('x2', px(right))
    .attr('y1', px(y(base)))
    .attr('y2', px(y(base)));
}

/** Hachures hang from the profile where a mapped drop lies near. */
function drawExposure(
  g: Group,
  { candidate: c, features }: StripData,
  x: Scale,
  y: Scale,
  words: FigureWords,
): void {
  const steps: string[] = [];
  for (const { from, to } of exposedStretches(c.line, features)) {
    for (let at = x(from); at <= x(to); at += 4) {
      const height = heightAt(c.profile, x.invert(at));
      if (height !== null) steps.push(`M${px(at)},${px(y(height) + 1)}v7`);
    }
  }
  if (steps.length === 0) return;
  g.append('path')
    .attr('class', 'exposed')
    .attr('d', steps.join(''))
    .append('title')
    .text(words.dropNear(NEAR_DROP));
}

function heightAt(profile: Candidate['profile'], metres: number): number | null {
  const i = profile.findIndex(([along]) => along >= metres);
  if (i < 0) return profile.at(-1)?.[1] ?? null;
  const [a, b] = [profile[Math.max(0, i - 1)]!, profile[i]!];
  return b[0] === a[0] ? b[1] : a[1] + ((b[1] - a[1]) * (metres - a[0])) / (b[0] - a[0]);
}

/** Whether a strip of any of these routes has hachures, which then have to be explained. */
export function hasExposure(candidates: readonly Candidate[], features: readonly ReportFeature[]): boolean {
  return candidates.some((c) => exposedStretches(c.line, features).length > 0);
}

function drawGround(g: Group, { candidate: c, features }: StripData, x: Scale, words: FigureWords): void {
  for (const s of groundMet(c.line, features)) {
    const [from, to] = [x(s.from), x(s.to)];
    g.append('line')
      .attr('class', 'ground-met')
      .attr('x1', px(from))
      .attr('x2', px(to))
      .attr('y1', LAYOUT.ground)
      .attr('y2', LAYOUT.ground)
      .append('title')
      .text(words.kind(s.kind));
    const said = words.kind(s.kind);
    if (textWidth(said, 13) < to - from) {
      g.append('text')
        .attr('class', 'quiet small')
        .attr('x', px((from + to) / 2))
        .attr('y', LAYOUT.foot - 4)
        .attr('text-anchor', 'middle')
        .text(said);
    }
  }
}

/** The legs one after the other; gives the px from where to where each runs. */
function drawLegs(
  g: Group,
  c: Candidate,
  x: Scale,
  width: number,
  words: FigureWords,
): (readonly [number, number])[] {
  const total = c.legs.reduce((sum, l) => sum + l.distanceMetres, 0);
  // Legs are measured as planned, the profile along the line: one is stretched onto the other.
  const stretch = total > 0 ? c.distanceMetres / total : 1;
  let walked = 0;
  let namesEnd = 0;
  let meetsEnd = 0;
  return c.legs.map((l, i) => {
    const from = x(walked * stretch);
    walked += l.distanceMetres;
    const to = x(walked * stretch);
    g.append('line')
      .attr('class', 'leg-edge')
      .attr('x1', px(to))
      .attr('x2', px(to))
      .attr('y1', LAYOUT.top)
      .attr('y2', LAYOUT.legs + 6);
    g.append('line')
      .attr(
        'class',
        l.technique === 'handrail' ? 'leg-handrail' : `leg-open${l.technique === 'sight' ? ' fine' : ''}`,
      )
      .attr('x1', px(from + 1.5))
      .attr('x2', px(Math.max(from + 2.5, to - 1.5)))
      .attr('y1', LAYOUT.legs)
      .attr('y2', LAYOUT.legs);
    const full = `${i + 1} ${words.techniques[l.technique]}`;
    const name = to - from > 44 ? fitted(full, 13, to - from) : String(i + 1);
    const at = Math.max((from + to - textWidth(name, 13)) / 2, namesEnd);
    namesEnd = at + textWidth(name, 13) + 4;
    g.append('text').attr('class', 'small').attr('x', px(at)).attr('y', LAYOUT.names).text(name);
    for (const tick of l.ticks) {
      const where = from + Math.min(1, tick.atMetres / Math.max(1, l.distanceMetres)) * (to - from);
      g.append('circle')
        .attr('class', 'tick-mark')
        .attr('cx', px(where))
        .attr('cy', LAYOUT.legs)
        .attr('r', 3.2)
        .append('title')
        .text(tick.name);
      const wide = textWidth(tick.name, 13);
      const start = Math.max(46, where - wide / 2);
      if (start < meetsEnd || start + wide > width) continue;
      meetsEnd = start + wide + 10;
      g.append('text')
        .attr('class', 'quiet small')
        .attr('x', px(start))
        .attr('y', LAYOUT.meets)
        .text(tick.name);
    }
    return [from, to] as const;
  });
}

/** Lowest and highest of all profiles, rounded out to tens, with at least 40 m between. */
export function sharedHeights(candidates: readonly Candidate[]): readonly [number, number] {
  const [low = 0, high = 0] = extent(candidates.flatMap((c) => c.profile.map((p) => p[1])));
  const bottom = Math.floor(low / 10) * 10;
  return [bottom, Math.max(Math.ceil(high / 10) * 10, bottom + 40)];
}
