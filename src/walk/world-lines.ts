import type { Conditions } from '../conditions/conditions.ts';
import { dayFactors } from '../conditions/factors.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import type { Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { flowsAsDrawn } from '../features/line.ts';
import { channelOf, STREAM_END_SHIFT } from '../features/stream-end.ts';
import { sample } from '../grid/raster.ts';
import { distance, lineLength, type Point, pointAlong } from '../math/plane.ts';
import { hashText } from '../math/random.ts';
import { reachOf } from '../seeing/recognisable.ts';
import { BOXED, CRAG, EDGE, FENCE, type Line, RIDGE, type Shift, STREAM, WALL, WAY } from './world.ts';

/** Family and loss per km as a handrail, model of the trade; common practice, no source. */
const FAMILY: Readonly<Partial<Record<FeatureKind, readonly [family: number, lossPerKm: number]>>> = {
  wall: [WALL, 0.01],
  'ruined-wall': [WALL, 0.05],
  fence: [FENCE, 0.03],
  track: [WAY, 0.02],
  path: [WAY, 0.05],
  'right-of-way': [WAY, 0.2],
  trod: [WAY, 0.8],
  stream: [STREAM, 0.1],
  'small-stream': [STREAM, 0.1],
  'forest-edge': [EDGE, 0.1],
  'marsh-edge': [EDGE, 0.1],
  'break-of-slope': [EDGE, 0.2],
  ridge: [RIDGE, 0.1],
  cliff: [CRAG, 0.1],
};

/** A stream may run on above its mapped end by up to this, metres. */
const RUN_ON = 400;
const SMOOTH_HALF = 40;
const NO_SHIFT: Shift = { mean: 0, sd: 0 };
/** A fixed head keeps this share of the shift. Common practice. */
const FIXED_HEAD = 0.05;
const PATHS: ReadonlySet<string> = new Set(['track', 'path', 'right-of-way', 'trod']);

/** Every mapped line that can be met or followed, streams lengthened up their channel. */
export function linesOf(ground: MappedGround, conditions: Conditions): Line[] {
  const day = dayFactors(conditions);
  const heads = streamHeads(ground);
  const lines: Line[] = [];
  for (const feature of ground.features) {
    const known = FAMILY[feature.kind];
    if (known === undefined || feature.geometry.type !== 'line') continue;
    const [family, lossPerKm] = known;
    const { points } = feature.geometry;
    const metres = lineLength(points);
    const head = family === STREAM ? heads.get(feature.id) : undefined;
    const run = head === undefined ? [] : runOn(ground, points, head === 'start');
    const before = head === 'start' ? run.slice(1).reverse() : [];
    const after = head === 'end' ? run.slice(1) : [];
    const all = [...before, ...points, ...after];
    const along = chainage(all);
    const mapStart = before.length > 0 ? lineLength([...before, points[0]!]) : 0;
    const shift = head === undefined ? NO_SHIFT : endShift(conditions, feature);
    const reach = reachOf(feature, ground.cover, conditions, day);
    lines.push({
      index: lines.length,
      feature,
      key: hashText(feature.id),
      family,
      x: Float64Array.from(all, (p) => p[0]),
      y: Float64Array.from(all, (p) => p[1]),
      along,
      ...unitVectors(all),
      boxes: boxesOf(all),
      gradient: gradients(ground, all, along),
      mapStart,
      mapEnd: mapStart + metres,
      startShift: head === 'start' ? shift : NO_SHIFT,
      endShift: head === 'end' ? shift : NO_SHIFT,
      downSense: family !== STREAM ? 0 : flowsDown(ground, points) ? 1 : -1,
      exists: feature.doubt.exists,
      sd: feature.doubt.positionMetres,
      lossPerKm,
      isPath: PATHS.has(feature.kind),
      forks: [],
      noticedLow: reach.below,
      noticedHigh: reach.above,
    });
  }
  return lines;
}

/** Which vertex of each stream is a head that can move: the ends that the network calls a stream's end. */
function streamHeads(ground: MappedGround): Map<string, 'start' | 'end'> {
  const heads = new Map<string, 'start' | 'end'>();
  for (const place of ground.network.places) {
    if (place.kind !== 'stream-end') continue;
    for (const on of place.on) heads.set(on.feature, on.along < 1 ? 'start' : 'end');
  }
  return heads;
}

function flowsDown(ground: MappedGround, points: readonly Point[]): boolean {
  return flowsAsDrawn(points, (east, north) => sample(ground.terrain.elevation, east, north));
}

/** The valley above a head, head first. */
function runOn(ground: MappedGround, points: readonly Point[], headAtStart: boolean): readonly Point[] {
  const down = headAtStart ? points : [...points].reverse();
  const { up } = channelOf(down, true, ground.relief.flow, RUN_ON);
  // a channel that is known only a little way goes straight on: the water has to come from somewhere
  const known = lineLength(up);
  if (known >= RUN_ON - 1) return up;
  const last = up[up.length - 1]!;
  const prior = up.length > 1 ? up[up.length - 2]! : down[1]!;
  const d = distance(prior, last) || 1;
  const more = RUN_ON - known;
  return [...up, [last[0] + ((last[0] - prior[0]) / d) * more, last[1] + ((last[1] - prior[1]) / d) * more]];
}

function endShift(conditions: Conditions, feature: Feature): Shift {
  const { mean, sd } = STREAM_END_SHIFT[conditions.ground];
  const share = feature.doubt.head === 'spring-fed' ? FIXED_HEAD : 1;
  return { mean: mean * share, sd: sd * share };
}

/**
 * Rise per metre of each segment, from heights 40 m before and behind its middle: a made path is graded more evenly than the
 * cells that it crosses. Half the smoothing length is common practice, no source.
 */
function gradients(ground: MappedGround, points: readonly Point[], along: Float64Array): Float64Array {
  const { elevation } = ground.terrain;
  const last = along[along.length - 1]!;
  const gradient = new Float64Array(Math.max(1, points.length - 1));
  for (let k = 0; k + 1 < points.length; k++) {
    const middle = (along[k]! + along[k + 1]!) / 2;
    const half = Math.max(SMOOTH_HALF, (along[k + 1]! - along[k]!) / 2);
    const from = Math.max(0, middle - half);
    const to = Math.min(last, middle + half);
    const a = pointAlong(points, from);
    const b = pointAlong(points, to);
    const rise = sample(elevation, b[0], b[1]) - sample(elevation, a[0], a[1]);
    gradient[k] = to > from && Number.isFinite(rise) ? rise / (to - from) : 0;
  }
  return gradient;
}

function unitVectors(points: readonly Point[]): { unitX: Float64Array; unitY: Float64Array } {
  const unitX = new Float64Array(Math.max(1, points.length - 1));
  const unitY = new Float64Array(unitX.length);
  for (let k = 0; k + 1 < points.length; k++) {
    const a = points[k]!;
    const b = points[k + 1]!;
    const d = distance(a, b);
    if (d === 0) continue;
    unitX[k] = (b[0] - a[0]) / d;
    unitY[k] = (b[1] - a[1]) / d;
  }
  return { unitX, unitY };
}

function boxesOf(points: readonly Point[]): Float64Array {
  const count = Math.max(1, Math.ceil((points.length - 1) / BOXED));
  const boxes = new Float64Array(4 * count);
  for (let b = 0; b < count; b++) {
    const part = points.slice(b * BOXED, (b + 1) * BOXED + 1);
    boxes[4 * b] = Math.min(...part.map((p) => p[0]));
    boxes[4 * b + 1] = Math.min(...part.map((p) => p[1]));
    boxes[4 * b + 2] = Math.max(...part.map((p) => p[0]));
    boxes[4 * b + 3] = Math.max(...part.map((p) => p[1]));
  }
  return boxes;
}

function chainage(points: readonly Point[]): Float64Array {
  const along = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) along[i] = along[i - 1]! + distance(points[i - 1]!, points[i]!);
  return along;
}
