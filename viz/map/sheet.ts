import type { Point } from '../../src/math/plane.ts';
import type { Report, ReportFeature } from '../../src/report/report.ts';
import type { Figure, Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { doubtDash } from '../theme/route-style.ts';
import { contourLines } from './contours.ts';
import type { Ground } from './ground.ts';
import { cropped } from './ground.ts';
import { areaStyle, lineStyle } from './kind-style.ts';
import { contourInterval, contourNumber, type Units } from './map-units.ts';
import { pathData, ringsData } from './path-data.ts';
import { reliefUri } from './relief.ts';
import type { Bounds, View } from './view.ts';
import { boundsOf, touches } from './view.ts';

/** What a sheet tells those who draw on it. */
export interface SheetFacts {
  /** Metres between contours; null without heights. */
  readonly interval: number | null;
  /** The heavy ones with what is written on them, in the reader's units. */
  readonly heavy: readonly { readonly height: string; readonly line: readonly Point[] }[];
}

/** Relief, contours at round heights of the reader's units, areas and lines of features, without any word: the sheet that every map lies on. */
export function drawSheet(
  into: Group,
  report: Report,
  ground: Ground | null,
  view: View,
  id: string,
  mostContours = 18,
  packing: 1 | 9 = 9,
  units: Units = report.reading?.units ?? 'metric',
): SheetFacts {
  drawPatterns(into, id);
  const here = ground === null ? null : cropped(ground, view.bounds);
  if (here !== null) {
    into
      .append('g')
      .attr('class', 'layer-relief')
      .append('image')
      .attr('href', reliefUri(here, packing))
      .attr('preserveAspectRatio', 'none')
      .attr('x', px(view.x(here.west)))
      .attr('y', px(view.y(here.north)))
      .attr('width', px(here.columns * here.cell * view.scale))
      .attr('height', px(here.rows * here.cell * view.scale));
  }
  const features = report.features.filter((f) => touches(boundsOfFeature(f), view.bounds));
  drawAreas(into.append('g').attr('class', 'layer-ground'), features, view, id);
  const facts =
    here === null ? { interval: null, heavy: [] } : drawContours(into, here, view, mostContours, units);
  drawLines(into.append('g').attr('class', 'layer-features'), features, view);
  return facts;
}

export function boundsOfFeature(feature: ReportFeature): Bounds {
  const g = feature.geometry;
  if (g.type === 'point') return boundsOf([g.at]);
  return boundsOf(g.type === 'line' ? g.points : g.rings.flat());
}

function drawContours(into: Group, ground: Ground, view: View, most: number, units: Units): SheetFacts {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const h of ground.heights) {
    if (h < low) low = h;
    if (h > high) high = h;
  }
  if (!(high > low)) return { interval: null, heavy: [] };
  const interval = contourInterval(low, high, most, units);
  const layer = into.append('g').attr('class', 'layer-contours');
  const heavy: { height: string; line: readonly Point[] }[] = [];
  for (const c of contourLines(ground, interval)) {
    const d = c.lines.map((l) => pathData(l, view)).join('');
    layer
      .append('path')
      .attr('class', c.heavy ? 'contour heavy' : 'contour')
      .attr('d', d);
    if (c.heavy) for (const line of c.lines) heavy.push({ height: contourNumber(c.height, units), line });
  }
  return { interval, heavy };
}

function drawAreas(into: Group, features: readonly ReportFeature[], view: View, id: string): void {
  for (const f of features) {
    if (f.geometry.type !== 'area') continue;
    const style = areaStyle(f.kind);
    const d = ringsData(f.geometry.rings, view);
    if (style === 'lake') {
      into.append('path').attr('class', 'lake').attr('d', d).attr('fill-rule', 'evenodd');
      into
        .append('path')
        .attr('class', `line thin-water ${doubtDash(f.exists)}`)
        .attr('d', d);
      continue;
    }
    if (style !== 'plain') {
      into.append('path').attr('d', d).attr('fill-rule', 'evenodd').attr('fill', `url(#${id}-${style})`);
    }
    if (style !== 'rough')
      into
        .append('path')
        .attr('class', `line edge ${doubtDash(f.exists)}`)
        .attr('d', d);
  }
}

function drawLines(into: Group, features: readonly ReportFeature[], view: View): void {
  for (const f of features) {
    if (f.geometry.type !== 'line') continue;
    const style = lineStyle(f.kind);
    const doubt = doubtDash(f.exists);
    const d = pathData(f.geometry.points, view);
    const stroke = (kind: string) => into.append('path').attr('class', `line ${kind} ${doubt}`).attr('d', d);
    stroke(style);
    if (style === 'track') stroke('track-inside');
    if (style === 'fence' || style === 'drop')
      into.append('path').attr('class', `line ${style}-teeth`).attr('d', d);
  }
}

/** Signs strewn over an area: sparse, so that contours and routes stay on top of them. */
function drawPatterns(into: Group, id: string): void {
  const defs = into.append('defs');
  const pattern = (name: string, size: number, d: string, kind: string) => {
    const p = defs
      .append('pattern')
      .attr('id', `${id}-${name}`)
      .attr('width', size)
      .attr('height', size)
      .attr('patternUnits', 'userSpaceOnUse');
    p.append('path').attr('class', kind).attr('d', d);
  };
  pattern('wood', 22, 'M5,9V4M3,6L5,4L7,6M16,20V15M14,17L16,15L18,17', 'strewn');
  pattern('mire', 20, 'M2,5H8M12,15H18', 'strewn wet');
  pattern(
    'rough',
    18,
    'M4,6L5.5,3.5M6.5,6V3.2M9,6L7.5,3.5M13,15L14.5,12.5M15.5,15V12.2M18,15L16.5,12.5',
    'strewn faint',
  );
  pattern('stones', 16, 'M3,4h1.6M11,6h1.6M6,11h1.6M13,14h1.6', 'strewn');
  pattern('barrier', 7, 'M-1,8L8,-1M-1,1L1,-1M6,8L8,6', 'strewn hazard');
}

/** The sheet in an SVG that takes no room; maps of the page lay it under themselves with `use`. */
export function hiddenSheet(sheet: Figure, id: string): Group {
  return sheet
    .attr('class', 'sheet')
    .attr('aria-hidden', 'true')
    .attr('width', 0)
    .attr('height', 0)
    .append('defs')
    .append('g')
    .attr('id', id);
}
