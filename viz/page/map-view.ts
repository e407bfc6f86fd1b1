import { type Selection, select } from 'd3';
import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';
import { drawEndDots } from '../map/end-points.ts';
import { drawFurniture } from '../map/furniture.ts';
import type { Ground } from '../map/ground.ts';
import { LabelRoom } from '../map/label-room.ts';
import { drawEndNames, drawHeights, drawNames, drawPoints } from '../map/names.ts';
import { drawEnds, drawLetters, drawRoutes } from '../map/route-lines.ts';
import { drawSheet, hiddenSheet } from '../map/sheet.ts';
import { layUnder, type Sheet } from '../map/sheet-use.ts';
import type { Bounds, View } from '../map/view.ts';
import { framed, groundBounds, taskBounds, viewOf } from '../map/view.ts';
import type { Figure, Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { doubtDash } from '../theme/route-style.ts';
import { drawSketchLine, drawSketchPoints, type Sketch } from './sketch.ts';

const SVG = 'http://www.w3.org/2000/svg';
const FOOT = 34;
/** px per metre: a phone's width over a large terrain, and a boulder filling a hand. */
const LEAST_SCALE = 0.004;
const MOST_SCALE = 4;

/** The picture of one's own that may lie beneath, in metres. */
export interface Picture {
  readonly url: string;
  readonly bounds: Bounds;
}

/**
 * The map, kept outside of everything that re-renders. North up; moved and scaled by its view. What moves while one draws lies on
 * sheets of its own, so that the ground and its names are not painted anew with every step of a drag.
 */
export class MapView {
  readonly element: HTMLElement;
  private readonly sheetHolder: HTMLElement;
  private readonly layers: readonly Layer[];
  private readonly under: Group;
  /** Under the letters and the ends of the task. */
  private readonly line: Group;
  private readonly over: Group;
  private readonly furniture: Group;
  private readonly sketched: Group;
  private sheet: Sheet | null = null;
  private sheetKey = '';
  private report: Report | null = null;
  private picture: Picture | null = null;
  private sketch: Sketch | null = null;
  private frame = 0;
  private words: FigureWords = ENGLISH;
  view: View;

  constructor(holder: HTMLElement, label: string) {
    this.element = document.createElement('div');
    this.element.className = 'live';
    this.element.tabIndex = 0;
    this.element.setAttribute('role', 'application');
    this.element.setAttribute('aria-label', label);
    this.layers = [1, 2, 3, 4].map((n) => layerOf(this.element, `live-${n}`));
    const [under, line, over, sketched] = this.layers.map((l) => l.inside) as [Group, Group, Group, Group];
    this.under = under;
    this.line = line.append('g');
    this.over = over;
    this.furniture = this.layers[2]!.svg.append('g').attr('class', 'furniture');
    this.sketched = sketched.append('g');
    this.sheetHolder = document.createElement('div');
    holder.append(this.sheetHolder, this.element);
    this.view = viewOf({ west: 0, east: 1000, south: 0, north: 700 }, 720);
  }

  get interval(): number | null {
    return this.sheet?.facts.interval ?? null;
  }

  /** Ground and results to draw; the sheet is drawn again only when what lies on the ground has changed. */
  show(report: Report, ground: Ground, groundKey: string): void {
    this.report = report;
    const lying = report.features.filter((f) => f.geometry.type !== 'point');
    const key = `${groundKey} ${lying.map((f) => `${f.id}${doubtDash(f.exists)}`).join(' ')}`;
    if (key !== this.sheetKey) {
      this.sheetKey = key;
      const bounds = groundBounds(report);
      const view = viewOf(
        bounds,
        Math.max(900, Math.min(4000, Math.round((bounds.east - bounds.west) * 0.28))),
      );
      const svg = select(document.createElementNS(SVG, 'svg'));
      const facts = drawSheet(hiddenSheet(svg as never, 'live-sheet'), report, ground, view, 'live', 26, 1);
      this.sheetHolder.replaceChildren(svg.node()!);
      this.sheet = { id: 'live-sheet', view, facts };
    }
    this.draw();
  }

  setWords(words: FigureWords): void {
    this.words = words;
    this.draw();
  }

  setLabel(label: string): void {
    this.element.setAttribute('aria-label', label);
  }

  setPicture(picture: Picture | null): void {
    this.picture = picture;
    // the relief would cover it
    this.element.classList.toggle('pictured', picture !== null);
    this.draw();
  }

  setSketch(sketch: Sketch | null): void {
    this.sketch = sketch;
    this.drawSketch();
  }

  /** Shows start, target and every route. */
  fit(): void {
    if (this.report === null) return;
    const width = this.width();
    const b = taskBounds(this.report);
    const margin = Math.max(120, 0.09 * Math.max(b.east - b.west, b.north - b.south));
    const aspect = this.aspect(width);
    this.view = viewOf(framed(b, margin, { low: aspect, high: aspect }), width);
    this.draw();
  }

  /** The same ground in a window of another width. */
  resize(): void {
    const width = this.width();
    if (width === this.view.width) return;
    const { bounds } = this.view;
    const middle: Point = [(bounds.west + bounds.east) / 2, (bounds.south + bounds.north) / 2];
    this.lookAt(middle, this.view.scale);
  }

  moveBy(dx: number, dy: number): void {
    const { bounds, scale } = this.view;
    this.lookAt(
      [(bounds.west + bounds.east) / 2 - dx / scale, (bounds.south + bounds.north) / 2 + dy / scale],
      scale,
    );
  }

  /** Another scale, the given place staying where it is on the screen. */
  scaleBy(factor: number, about: Point): void {
    const { bounds, scale } = this.view;
    const wanted = Math.max(LEAST_SCALE, Math.min(MOST_SCALE, scale * factor));
    const k = scale / wanted;
    const middle: Point = [(bounds.west + bounds.east) / 2, (bounds.south + bounds.north) / 2];
    this.lookAt([about[0] + (middle[0] - about[0]) * k, about[1] + (middle[1] - about[1]) * k], wanted);
  }

  lookAt(middle: Point, scale = this.view.scale): void {
    const width = this.width();
    const half = width / scale / 2;
    const tall = half / this.aspect(width);
    this.view = viewOf(
      { west: middle[0] - half, east: middle[0] + half, south: middle[1] - tall, north: middle[1] + tall },
      width,
    );
    this.soon();
  }

  /** Metres of a place on the screen. */
  placeAt(clientX: number, clientY: number): Point {
    const box = this.element.getBoundingClientRect();
    const k = this.view.width / box.width;
    const { bounds, scale } = this.view;
    return [
      bounds.west + ((clientX - box.left) * k) / scale,
      bounds.north - ((clientY - box.top) * k) / scale,
    ];
  }

  private width(): number {
    return Math.max(280, Math.round(this.element.parentElement?.clientWidth ?? 720));
  }

  private aspect(width: number): number {
    return width < 500 ? 0.9 : 1.35;
  }

  /** At most once per picture of the screen. */
  private soon(): void {
    if (this.frame !== 0) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.draw();
    });
  }

  private draw(): void {
    const { report, sheet, view } = this;
    if (report === null || sheet === null) return;
    for (const { svg, clip } of this.layers) {
      svg.attr('viewBox', `0 0 ${view.width} ${view.height + FOOT}`);
      clip.attr('width', view.width).attr('height', view.height);
    }
    this.under.selectAll('*').remove();
    this.under.append('rect').attr('class', 'beyond').attr('width', view.width).attr('height', view.height);
    this.layPicture();
    layUnder(this.under, sheet, view);
    this.over.selectAll('*').remove();
    const { furniture } = this;
    furniture.selectAll('*').remove();
    const room = new LabelRoom(view.width, view.height);
    drawFurniture(furniture, report, view, room, 11, this.words);
    const group = (kind: string): Group => this.over.append('g').attr('class', kind);
    const points = group('layer-features');
    const routes = group('layer-routes');
    const dots = group('layer-ends');
    const names = group('layer-names');
    const heights = group('layer-contours');
    const marks = group('marks');
    for (const c of report.candidates) room.avoid(c.line.map((p) => [view.x(p[0]), view.y(p[1])] as const));
    drawEnds(marks, report, view, room);
    drawEndNames(names, report, view, room, 13);
    drawRoutes(routes, report, view);
    drawLetters(group('layer-routes'), report, view, room);
    drawEndDots(dots, report.candidates, view, 2);
    const here = inView(report, view);
    drawPoints(points, here, view, room);
    drawNames(names, here, view, room, 13);
    drawHeights(heights, sheet.facts, view, room, 11);
    this.drawSketch();
  }

  private layPicture(): void {
    if (this.picture === null) return;
    const { url, bounds } = this.picture;
    const { view } = this;
    this.under
      .append('image')
      .attr('href', url)
      .attr('class', 'own-picture')
      .attr('preserveAspectRatio', 'none')
      .attr('x', px(view.x(bounds.west)))
      .attr('y', px(view.y(bounds.north)))
      .attr('width', px((bounds.east - bounds.west) * view.scale))
      .attr('height', px((bounds.north - bounds.south) * view.scale));
  }

  private drawSketch(): void {
    const { sketch, view } = this;
    if (sketch === null) return;
    drawSketchLine(this.line, sketch, view);
    drawSketchPoints(this.sketched, sketch, view);
  }
}

/** One sheet of the map: a drawing as large as all others, cut at the neat line. */
interface Layer {
  readonly svg: Figure;
  readonly inside: Group;
  readonly clip: Selection<SVGRectElement, unknown, null, undefined>;
}

function layerOf(element: HTMLElement, id: string): Layer {
  const svg: Figure = select(document.createElementNS(SVG, 'svg'))
    .attr('class', 'figure map')
    .attr('aria-hidden', 'true');
  const clip = svg.append('defs').append('clipPath').attr('id', id).append('rect');
  const inside = svg.append('g').attr('clip-path', `url(#${id})`);
  element.append(svg.node()!);
  return { svg, inside, clip };
}

/** The report with only those features that the view touches, so that moving the map stays light. */
function inView(report: Report, { bounds }: View): Report {
  const seen = (points: readonly Point[]) => {
    let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
    for (const [e, n] of points) {
      west = Math.min(west, e);
      east = Math.max(east, e);
      south = Math.min(south, n);
      north = Math.max(north, n);
    }
    return west <= bounds.east && east >= bounds.west && south <= bounds.north && north >= bounds.south;
  };
  const features = report.features.filter(({ geometry: g }) =>
    seen(g.type === 'point' ? [g.at] : g.type === 'line' ? g.points : (g.rings[0] ?? [])),
  );
  return { ...report, features };
}
