import type { Report } from '../../src/report/report.ts';
import type { FigureOptions, Group } from '../theme/figure.ts';
import { finished, px, startFigure } from '../theme/figure.ts';
import { ENGLISH } from '../theme/figure-words.ts';
import { drawScaleBar } from './furniture.ts';
import { drawGridCrosses, drawTicks } from './grid-ticks.ts';
import type { Ground } from './ground.ts';
import { LabelRoom } from './label-room.ts';
import { printBar } from './map-units.ts';
import { drawEndNames, drawHeights, drawNames, drawPoints } from './names.ts';
import { drawEnds, drawLetters, drawRoutes } from './route-lines.ts';
import { drawSheet } from './sheet.ts';
import type { Bounds } from './view.ts';
import { groundBounds, viewOf, within } from './view.ts';

/** CSS px in a millimetre of paper: 96 to the inch. */
export const PX_PER_MM = 96 / 25.4;
/** Paper below the map for the scale bar. */
const FOOT_MM = 9;

/** Paper bears more contours than a screen. */
const MOST_CONTOURS = 36;

/** Room for a map and its scale bar, millimetres. */
export interface Paper {
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface PrintSheet {
  readonly bounds: Bounds;
  /** Of the map itself, without its foot. */
  readonly widthMm: number;
  readonly heightMm: number;
  /** 25 000 for 1:25 000. */
  readonly scale: number;
}

/**
 * The sheets of paper that hold these bounds at a scale, from west to east and from north to south; neighbours share 10 mm. Upright or
 * across, whichever needs fewer.
 */
export function printSheets(
  report: Report,
  shown: Bounds,
  scale: number,
  paper: { readonly upright: Paper; readonly across: Paper },
): PrintSheet[] {
  const upright = tiles(report, shown, scale, paper.upright);
  const across = tiles(report, shown, scale, paper.across);
  return across.length < upright.length ? across : upright;
}

function tiles(report: Report, b: Bounds, scale: number, paper: Paper): PrintSheet[] {
  const metres = (mm: number) => (mm / 1000) * scale;
  const ground = groundBounds(report);
  // No sheet is larger than the ground that there is to show.
  const room = {
    wide: Math.min(metres(paper.widthMm), ground.east - ground.west),
    tall: Math.min(metres(paper.heightMm - FOOT_MM), ground.north - ground.south),
  };
  const shared = metres(10);
  const margin = metres(8);
  const count = (need: number, have: number) => Math.max(1, Math.ceil((need - shared) / (have - shared)));
  const columns = count(b.east - b.west + 2 * margin, room.wide);
  const rows = count(b.north - b.south + 2 * margin, room.tall);
  const whole = {
    wide: columns * room.wide - (columns - 1) * shared,
    tall: rows * room.tall - (rows - 1) * shared,
  };
  const middle = { e: (b.east + b.west) / 2, n: (b.north + b.south) / 2 };
  const all = within(
    {
      west: middle.e - whole.wide / 2,
      east: middle.e + whole.wide / 2,
      south: middle.n - whole.tall / 2,
      north: middle.n + whole.tall / 2,
    },
    ground,
  );
  // Moving onto the ground must not push the task off the paper.
  const west = Math.min(Math.max(all.west, b.east - whole.wide), b.west);
  const north = Math.max(Math.min(all.north, b.south + whole.tall), b.north);
  const sheets: PrintSheet[] = [];
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const w = west + c * (room.wide - shared);
      const n = north - r * (room.tall - shared);
      const bounds = { west: w, east: w + room.wide, south: n - room.tall, north: n };
      const mm = (m: number) => (m / scale) * 1000;
      sheets.push({ bounds, widthMm: mm(room.wide), heightMm: mm(room.tall), scale });
    }
  }
  return sheets;
}

/** Between the crosses of the grid, which is metric for every reader. */
function gridMetres(scale: number): number {
  return scale >= 20_000 ? 1000 : 500;
}

export interface PrintMapData {
  readonly report: Report;
  readonly ground: Ground | null;
  readonly sheet: PrintSheet;
  /** Without routes it can be handed out before the task. */
  readonly routes: boolean;
}

/** One sheet at its true scale: the element's size is in millimetres of paper. With it what a reader has to be told: the metres between contours. */
export function drawPrintMap(
  data: PrintMapData,
  options: Omit<FigureOptions, 'width'>,
): { readonly map: SVGSVGElement; readonly interval: number | null } {
  const { report, ground, sheet, routes } = data;
  const { id, words = ENGLISH } = options;
  const width = Number(px(sheet.widthMm)) * PX_PER_MM;
  const view = viewOf(sheet.bounds, width);
  const height = (sheet.heightMm + FOOT_MM) * PX_PER_MM;
  const svg = startFigure(
    { ...options, width },
    {
      height,
      kind: 'map print-map',
      title: words.printTitle(sheet.scale),
      description: words.printShown(report.task.start.name, report.task.target.name, report.task.terrain),
    },
  ).attr('style', `width:${px(sheet.widthMm)}mm;height:${px(sheet.heightMm + FOOT_MM)}mm`);
  svg
    .append('defs')
    .append('clipPath')
    .attr('id', `${id}-clip`)
    .append('rect')
    .attr('width', view.width)
    .attr('height', view.height);
  const inside: Group = svg.append('g').attr('clip-path', `url(#${id}-clip)`);
  const facts = drawSheet(inside, report, ground, view, id, MOST_CONTOURS);
  const room = new LabelRoom(view.width, view.height);
  const step = gridMetres(sheet.scale);
  drawGridCrosses(inside.append('g'), view, step);
  drawTicks(svg.append('g'), view, room, step, 12.8);
  const points: Group = inside.append('g');
  const lines: Group = inside.append('g');
  const names: Group = inside.append('g');
  const marks: Group = inside.append('g');
  if (routes) {
    for (const c of report.candidates) room.avoid(c.line.map((p) => [view.x(p[0]), view.y(p[1])] as const));
    drawRoutes(lines, report, view);
  }
  drawEnds(marks, report, view, room);
  drawEndNames(names, report, view, room, 13);
  if (routes) drawLetters(marks, report, view, room);
  drawPoints(points, report, view, room);
  drawNames(names, report, view, room, 13);
  drawHeights(names, facts, view, room, 12.8);
  svg.append('rect').attr('class', 'neatline').attr('width', view.width).attr('height', view.height);
  const foot: Group = svg.append('g').attr('transform', `translate(0,${px(view.height + 5 * PX_PER_MM)})`);
  drawScaleBar(foot, printBar(sheet.scale, words.measures.units), view.scale);
  return { map: finished(svg), interval: facts.interval };
}
