import { select } from 'd3';
import type { FeatureKind } from '../../src/features/kinds.ts';
import { areaStyle, lineStyle, pointStyle, UNSIGNED } from '../map/kind-style.ts';
import type { Sheet } from '../map/sheet-use.ts';
import type { Child } from '../theme/element.ts';
import type { Writing } from './page-parts.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** The legend is the layer switch: a box per layer, with what the layer shows beside it. Works without scripts. */
export function mapLegend(writing: Writing, sheet: Sheet): HTMLElement {
  const { report, make, words } = writing;
  const say = words.map;
  const ends = Math.max(0, ...report.candidates.map((c) => c.endPoints.length));
  const interval = sheet.facts.interval;
  const layer = (name: string, label: string, ...shown: readonly Child[]) =>
    make(
      'li',
      {},
      make(
        'label',
        {},
        make('input', { type: 'checkbox', class: `switch-${name}`, checked: true, autocomplete: 'off' }),
        make('span', {}, label),
      ),
      shown.length > 0 && make('span', { class: 'shown' }, ...shown),
    );
  return make(
    'figcaption',
    { class: 'legend' },
    make(
      'ul',
      { 'aria-label': say.layers },
      layer('routes', say.routes, note(writing, say.routesNote)),
      layer(
        'ends',
        say.ends,
        sample(writing, 'end', 'hue-1', say.found),
        sample(writing, 'end-open', 'hue-1', say.notFound),
        note(writing, say.endsNote(ends, report.task.trials)),
      ),
      layer('features', say.features, ...kindSamples(writing), ...doubtSamples(writing)),
      layer('names', say.names),
      layer('ground', say.ground),
      interval === null ? null : layer('contours', say.contours(interval)),
      interval === null ? null : layer('relief', say.relief),
    ),
    make(
      'p',
      { class: 'hazard-note' },
      make('span', { class: hazardClass(writing), 'aria-hidden': true }),
      hazardNote(writing),
    ),
  );
}

function hazardClass({ report }: Writing): string {
  return report.candidates.some((c) => c.hazard === 'not assessed') ? 'swatch stipple' : 'swatch hatch';
}

function hazardNote({ report, words }: Writing): string {
  return report.candidates.some((c) => c.hazard === 'not assessed')
    ? words.map.unassessed
    : words.map.hatched;
}

function note({ make }: Writing, text: string): HTMLElement {
  return make('span', { class: 'note' }, text);
}

function sample({ make, document }: Writing, what: string, kind: string, label: string): HTMLElement {
  const svg = select(document.createElementNS(SVG, 'svg'))
    .attr('class', `sample ${kind}`)
    .attr('viewBox', '0 0 30 14')
    .attr('width', 30)
    .attr('height', 14)
    .attr('aria-hidden', 'true');
  if (what === 'end')
    svg.append('circle').attr('class', 'end-dot found').attr('cx', 15).attr('cy', 7).attr('r', 3.5);
  else if (what === 'end-open')
    svg.append('circle').attr('class', 'end-dot').attr('cx', 15).attr('cy', 7).attr('r', 3.5);
  else if (what.startsWith('line ')) {
    svg.append('path').attr('class', what).attr('d', 'M1,7H29');
    if (what.includes(' track '))
      svg.append('path').attr('class', `${what} track-inside`).attr('d', 'M1,7H29');
    if (what.includes(' fence ')) svg.append('path').attr('class', 'line fence-teeth').attr('d', 'M1,7H29');
    if (what.includes(' drop ')) svg.append('path').attr('class', 'line drop-teeth').attr('d', 'M1,7H29');
  } else if (what.startsWith('point built')) {
    svg
      .append('g')
      .attr('class', what)
      .append('rect')
      .attr('x', 11)
      .attr('y', 3)
      .attr('width', 8)
      .attr('height', 8);
  } else if (what.startsWith('point landform')) {
    svg.append('g').attr('class', what).append('path').attr('d', 'M10,11L15,2L20,11Z');
  } else {
    svg.append('g').attr('class', what).append('circle').attr('cx', 15).attr('cy', 7).attr('r', 4);
  }
  return make('span', { class: 'sampled' }, svg.node(), label);
}

/** One sample for each way of drawing that occurs, with the kinds drawn so. */
function kindSamples(writing: Writing): HTMLElement[] {
  const ways = new Map<string, Set<string>>();
  for (const f of writing.report.features) {
    if (UNSIGNED.has(f.kind)) continue;
    const way = wayOf(f.kind, f.geometry.type);
    if (way === null) continue;
    const kinds = ways.get(way) ?? new Set();
    ways.set(way, kinds.add(writing.words.kind(f.kind)));
  }
  return [...ways].map(([way, kinds]) => sample(writing, way, '', [...kinds].slice(0, 4).join(', ')));
}

function wayOf(kind: FeatureKind, geometry: 'point' | 'line' | 'area'): string | null {
  if (geometry === 'line') return `line ${lineStyle(kind)} sure`;
  if (geometry === 'point') return `point ${pointStyle(kind)} sure`;
  return areaStyle(kind) === 'lake' ? 'line thin-water sure' : null;
}

function doubtSamples(writing: Writing): HTMLElement[] {
  return [
    sample(writing, 'line wall sure', '', writing.words.map.sure),
    sample(writing, 'line wall likely', '', writing.words.map.likely),
    sample(writing, 'line wall doubtful', '', writing.words.map.doubtful),
  ];
}
