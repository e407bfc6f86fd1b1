import { select } from 'd3';
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
import type { Group } from '../theme/figure.ts';
import { px } from '../theme/figure.ts';
import { ENGLISH, type FigureWords } from '../theme/figure-words.ts';
import { doubtDash } from '../theme/route-style.ts';
import { MapLayers } from './map-layers.ts';
import { drawSketchLine, drawSketchPoints, type Sketch } from './sketch.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** px per metre: a phone's width over a large terrain, and a boulder filling a hand. */
const LEAST_SCALE = 0.004;
const MOST_SCALE = 4;
/** The map is drawn anew when the hand has rested for so long, milliseconds. */
const REST = 130;
/** The same while it still holds the map. */
const HELD = 700;

/** The picture of one's own that may lie beneath, in metres. */
export interface Picture {
  readonly url: string;
  readonly bounds: Bounds;
}

/**
 * The map, kept outside of everything that re-renders. North up; moved and scaled by its view. While the hand moves it, what is drawn
 * is only shifted; it is drawn anew when the hand rests.
 */
export class MapView {
  readonly element: HTMLElement;
  private readonly sheetHolder: HTMLElement;
  private readonly layers: MapLayers;
  private sheet: Sheet | null = null;
  private sheetKey = '';
  private report: Report | null = null;
  private picture: Picture | null = null;
  /** The map has been moved or scaled by the reader. */
  private touched = false;
  private sketch: Sketch | null = null;
  private frame = 0;
  private rest = 0;
  /** A hand is on the map. */
  held = false;
  /** The view that lies drawn on the layers. */
  private drawn: View;
  private words: FigureWords = ENGLISH;
  view: View;

  constructor(holder: HTMLElement, label: string) {
    this.element = document.createElement('div');
    this.element.className = 'live';
    this.element.tabIndex = 0;
    this.element.setAttribute('role', 'application');
    this.element.setAttribute('aria-label', label);
    this.layers = new MapLayers(this.element);
    this.sheetHolder = document.createElement('div');
    holder.append(this.sheetHolder, this.element);
    this.view = viewOf({ west: 0, east: 1000, south: 0, north: 700 }, 720);
    this.drawn = this.view;
  }

  get interval(): number | null {
    return this.sheet?.facts.interval ?? null;
  }

  /** Ground and results to draw; the sheet is drawn again only when what lies on the ground has changed. */
  show(report: Report, ground: Ground, groundKey: string): void {
    this.report = report;
    const lying = report.features.filter((f) => f.geometry.type !== 'point');
    const { units } = this.words.measures;
    const key = `${groundKey} ${units} ${lying.map((f) => `${f.id}${doubtDash(f.exists)}`).join(' ')}`;
    if (key !== this.sheetKey) {
      this.sheetKey = key;
      const bounds = groundBounds(report);
      const view = viewOf(
        bounds,
        Math.max(900, Math.min(4000, Math.round((bounds.east - bounds.west) * 0.28))),
      );
      const svg = select(document.createElementNS(SVG, 'svg'));
      const facts = drawSheet(
        hiddenSheet(svg as never, 'live-sheet'),
        report,
        ground,
        view,
        'live',
        26,
        1,
        units,
      );
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

  /** Shows start, target and every route, as long as nobody has looked elsewhere. */
  fitUntouched(): void {
    if (!this.touched) this.fit();
  }

  /** Shows start, target and every route. */
  fit(): void {
    if (this.report === null) return;
    this.touched = false;
    const width = this.width();
    const b = taskBounds(this.report);
    // names of start and target need their room on a narrow sheet too
    const share = width < 500 ? 0.14 : 0.09;
    const margin = Math.max(120, share * Math.max(b.east - b.west, b.north - b.south));
    const aspect = this.aspect(width);
    this.view = viewOf(framed(b, margin, { low: aspect, high: aspect }), width);
    this.draw();
  }

  /** The same ground in a window of another width. */
  resize(): void {
    const width = this.width();
    if (width === this.view.width) return;
    const { bounds, scale } = this.view;
    const middle: Point = [(bounds.west + bounds.east) / 2, (bounds.south + bounds.north) / 2];
    if (this.touched) this.lookAt(middle, scale);
    else this.fit();
  }

  /** The hand is off the map. */
  letGo(): void {
    if (!this.held) return;
    this.held = false;
    this.soon();
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
    this.touched = true;
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

  /** Shifted at most once per picture of the screen, and drawn when that is over or shows too much of nothing. */
  private soon(): void {
    window.clearTimeout(this.rest);
    this.rest = window.setTimeout(() => this.draw(), this.held ? HELD : REST);
    if (this.frame !== 0) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      const { report, view, drawn } = this;
      if (report === null || view === drawn) return;
      if (view.width !== drawn.width || !this.layers.shift(drawn, view)) this.draw();
      else this.drawFurniture(report, new LabelRoom(view.width, view.height));
    });
  }

  private drawFurniture(report: Report, room: LabelRoom): void {
    const { furniture } = this.layers;
    furniture.selectAll('*').remove();
    drawFurniture(furniture, report, this.view, room, 11, this.words);
  }

  private draw(): void {
    window.clearTimeout(this.rest);
    const { report, sheet, view } = this;
    if (report === null || sheet === null) return;
    const { under, over } = this.layers;
    this.drawn = view;
    const around = this.layers.lay(view);
    under.selectAll('*').remove();
    under
      .append('rect')
      .attr('class', 'beyond')
      .attr('x', around.x)
      .attr('y', around.y)
      .attr('width', around.width)
      .attr('height', around.height);
    this.layPicture(under);
    layUnder(under, sheet, view);
    over.selectAll('*').remove();
    const room = new LabelRoom(view.width, view.height);
    this.drawFurniture(report, room);
    const group = (kind: string): Group => over.append('g').attr('class', kind);
    const points = group('layer-features');
    const routes = group('layer-routes');
    const dots = group('layer-ends');
    const names = group('layer-names');
    const heights = group('layer-contours');
    const marks = group('marks');
    for (const c of report.candidates) room.avoid(c.line.map((p) => [view.x(p[0]), view.y(p[1])] as const));
    drawEnds(marks, report, view, room);
    drawEndNames(names, report, view, room, 13, this.words);
    drawRoutes(routes, report, view);
    drawLetters(group('layer-routes'), report, view, room);
    drawEndDots(dots, report.candidates, view, 2);
    const here = inView(report, view);
    drawPoints(points, here, view, room);
    drawNames(names, here, view, room, 13, this.words);
    drawHeights(heights, sheet.facts, view, room, 11);
    this.drawSketch();
  }

  private layPicture(under: Group): void {
    if (this.picture === null) return;
    const { url, bounds } = this.picture;
    const { view } = this;
    under
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
    const { sketch, drawn, layers } = this;
    if (sketch === null) return;
    drawSketchLine(layers.line, sketch, drawn);
    drawSketchPoints(layers.sketched, sketch, drawn);
  }
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
