import type { Feature } from '../features/feature.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { cellAt, type Raster, sample } from '../grid/raster.ts';
import { distance, lineLength, type Point, pointAlong } from '../math/plane.ts';
import { ln } from '../math/portable.ts';
import { type Finding, someOf } from './check-finding.ts';

/*
 * Do the streams of the map lie in the valleys of the elevation? Where they do not, one of the two layers is moved, too
 * coarse or from another place. The thresholds are our own, tried on several open data sets; no published source.
 */

/** Ground that drains through a place where a mapped stream may be expected: 5 ha, and at least this many cells. */
const STREAM_SQUARE_METRES = 50_000;
const LEAST_CELLS = 8;
/** Streams shorter than this are not judged alone, metres. */
const LONG_ENOUGH = 300;
/** A stream of which less than this share lies in a valley is doubtful; all streams together below `MOST` as well. */
const SHARE = 0.5;
const MOST = 0.7;
/** Sample points over all streams, at most. */
const SAMPLES = 20_000;
/** Shifts tried, cells either way. */
const SHIFTS = 6;
/** Metres a stream may climb on its way before it counts as running uphill, beside the noise of the raster. */
const CLIMB = 15;

export interface StreamCheck {
  /** Share of the streams' length within a cell and a half of a drainage line; null without streams on the raster. */
  readonly share: number | null;
  /** The move in metres that would bring more of the streams into valleys; null when none does clearly. */
  readonly shift: Point | null;
  readonly findings: readonly Finding[];
}

/** Compares the mapped streams with the flow of the elevation (cells of upslope area, same georeference). */
export function checkStreams(features: readonly Feature[], elevation: Raster, flow: Raster): StreamCheck {
  const streams = features.filter((f) => f.geometry.type === 'line' && lineFamily(f.kind) === 'water');
  const step = stepOf(streams, flow.cell);
  const sampled = streams
    .map((stream) => ({ stream, places: placesOf(stream, step).filter((p) => onRaster(flow, p)) }))
    .filter(({ places }) => places.length > 0);
  const all = sampled.flatMap(({ places }) => places);
  if (all.length === 0) return { share: null, shift: null, findings: [] };

  const least = Math.max(LEAST_CELLS, STREAM_SQUARE_METRES / (flow.cell * flow.cell));
  const inValley = (p: Point) => mostFlow(flow, p) >= least;
  const share = shareOf(all, inValley);
  const astray = sampled
    .filter(({ places }) => places.length * step >= LONG_ENOUGH && shareOf(places, inValley) < SHARE)
    .map(({ stream }) => stream.id);
  const shift = share < 0.95 ? betterShift(all, flow) : null;
  const uphill = sampled.filter(({ stream }) => climbs(stream, elevation)).map(({ stream }) => stream.id);
  return { share, shift, findings: findingsOf(share, shift, astray, uphill, flow.cell) };
}

function findingsOf(
  share: number,
  shift: Point | null,
  astray: readonly string[],
  uphill: readonly string[],
  cell: number,
): Finding[] {
  const findings: Finding[] = [];
  if (share < MOST || shift !== null) {
    const moved =
      shift === null
        ? ''
        : `; moved ${metresWords(shift)}, more of it would: the layers may not lie on each other`;
    findings.push({
      weight: 'doubtful',
      about: 'features',
      says: `${Math.round(100 * share)} of 100 metres of mapped stream lie in a valley of the elevation (cells of ${round(cell)} m)${moved}`,
    });
  }
  if (astray.length > 0) {
    findings.push({
      weight: 'doubtful',
      about: 'features',
      says: `streams that mostly do not lie in a valley: ${someOf(astray)}`,
      ids: astray,
    });
  }
  if (uphill.length > 0) {
    findings.push({
      weight: 'doubtful',
      about: 'features',
      says: `streams that climb more than ${CLIMB} m on their way: ${someOf(uphill)}`,
      ids: uphill,
    });
  }
  return findings;
}

function metresWords([east, north]: Point): string {
  const parts = [
    east === 0 ? '' : `${round(Math.abs(east))} m ${east > 0 ? 'east' : 'west'}`,
    north === 0 ? '' : `${round(Math.abs(north))} m ${north > 0 ? 'north' : 'south'}`,
  ];
  return parts.filter((p) => p !== '').join(' and ');
}

const round = (metres: number) => Math.round(metres);

function stepOf(streams: readonly Feature[], cell: number): number {
  const metres = streams.reduce((sum, f) => sum + lineLength(pointsOf(f)), 0);
  return Math.max(cell, metres / SAMPLES);
}

function pointsOf(feature: Feature): readonly Point[] {
  return feature.geometry.type === 'line' ? feature.geometry.points : [];
}

function placesOf(feature: Feature, step: number): Point[] {
  const points = pointsOf(feature);
  const places: Point[] = [];
  // the vertices' running distance, so that a long line is walked once
  let left = 0;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const d = distance(a, b);
    for (; left <= d && d > 0; left += step) {
      const t = left / d;
      places.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
    }
    left -= d;
  }
  return places;
}

function onRaster(g: Raster, p: Point): boolean {
  const i = cellAt(g, p[0], p[1]);
  return i >= 0 && !Number.isNaN(g.data[i]!);
}

function shareOf(places: readonly Point[], is: (p: Point) => boolean): number {
  return places.filter(is).length / places.length;
}

/** Most flow among the nine cells about a place. */
function mostFlow(flow: Raster, p: Point): number {
  const c = Math.floor((p[0] - flow.west) / flow.cell);
  const r = Math.floor((flow.north - p[1]) / flow.cell);
  let most = 0;
  for (let y = Math.max(0, r - 1); y <= Math.min(flow.rows - 1, r + 1); y++)
    for (let x = Math.max(0, c - 1); x <= Math.min(flow.columns - 1, c + 1); x++) {
      const f = flow.data[y * flow.columns + x]!;
      if (f > most) most = f;
    }
  return most;
}

/**
 * The whole-cell move with the largest mean ln of flow under the streams, where it beats staying put clearly: by .35, which
 * is a factor of 1.4 in drained area, and lies at least a cell and a half away.
 */
function betterShift(places: readonly Point[], flow: Raster): Point | null {
  const { columns, rows, cell, west, north } = flow;
  const most = lnMostFlow(flow);
  const at = places.map(([x, y]) => [Math.floor((x - west) / cell), Math.floor((north - y) / cell)] as const);
  const meanLn = (right: number, up: number) => {
    let sum = 0;
    for (const [column, row] of at) {
      const c = column + right;
      const r = row - up;
      if (c >= 0 && r >= 0 && c < columns && r < rows) sum += most[r * columns + c]!;
    }
    return sum / at.length;
  };
  const here = meanLn(0, 0);
  let best = { value: here, right: 0, up: 0 };
  for (let up = -SHIFTS; up <= SHIFTS; up++)
    for (let right = -SHIFTS; right <= SHIFTS; right++) {
      const value = meanLn(right, up);
      if (value > best.value) best = { value, right, up };
    }
  const far = best.right * best.right + best.up * best.up >= 2;
  return far && best.value > here + 0.35 ? [best.right * cell, best.up * cell] : null;
}

/** ln of the most flow among the nine cells about each cell. */
function lnMostFlow({ columns, rows, data }: Raster): Float32Array {
  const most = new Float32Array(data.length);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      let best = 1;
      for (let y = Math.max(0, r - 1); y <= Math.min(rows - 1, r + 1); y++)
        for (let x = Math.max(0, c - 1); x <= Math.min(columns - 1, c + 1); x++) {
          const f = data[y * columns + x]!;
          if (f > best) best = f;
        }
      most[r * columns + c] = best > 1 ? ln(best) : 0;
    }
  return most;
}

/** True where a stream, taken downhill from its higher end, climbs back more than `CLIMB` and the noise of its raster. */
function climbs(stream: Feature, elevation: Raster): boolean {
  const points = pointsOf(stream);
  const length = lineLength(points);
  const heights: number[] = [];
  const step = Math.max(2 * elevation.cell, length / 500);
  for (let d = 0; d <= length; d += step) {
    const [x, y] = pointAlong(points, d);
    const z = sample(elevation, x, y);
    if (!Number.isNaN(z)) heights.push(z);
  }
  if (heights.length < 3) return false;
  if (heights[0]! < heights[heights.length - 1]!) heights.reverse();
  // coarse cells smear the floor of a valley with its sides
  const allowed = CLIMB + 0.4 * elevation.cell;
  let low = heights[0]!;
  for (const z of heights) {
    if (z > low + allowed) return true;
    low = Math.min(low, z);
  }
  return false;
}
