import { distance, nearestOnLine, type Point } from '../../src/math/plane.ts';
import type { Drainage, Heights } from './drainage.ts';

export interface Stream {
  /** From its head to its mouth. */
  readonly points: readonly Point[];
  /** Cells that drain through its mouth. */
  readonly flow: number;
  readonly small: boolean;
  /** True where the upper end is a stream's head, not the place where a small one becomes a large one. */
  readonly begins: boolean;
}

export interface StreamNet {
  readonly streams: readonly Stream[];
  readonly confluences: readonly Point[];
}

/** Least cells of a small stream, and of one a metre wide (8 and 50 ha). */
const SMALL = 800;
const LARGE = 5000;
/** Shorter side streams are left out: no map would show them. */
const SHORTEST = 120;

interface Waiting {
  readonly mouth: number;
  /** Cell of the stream it runs into, −1 at the map's edge, and that stream's line. */
  readonly into: number;
  readonly parent: readonly Point[];
}

/**
 * The streams of the drainage: main stems from mouth to head, side streams likewise. `wet` are cells whose water is
 * drawn whatever its flow (a tarn's inflow and outflow).
 */
export function traceStreams(ground: Heights, drainage: Drainage, wet: readonly number[]): StreamNet {
  const { receiver, order, flow } = drainage;
  const carries = new Uint8Array(flow.length);
  for (let i = 0; i < flow.length; i++) if (flow[i]! >= SMALL) carries[i] = 1;
  for (const start of wet) for (let i = start; i >= 0 && carries[i] === 0; i = receiver[i]!) carries[i] = 1;

  const feeders = new Map<number, number[]>();
  for (const i of order)
    if (carries[i] === 1 && receiver[i]! >= 0)
      feeders.set(receiver[i]!, [...(feeders.get(receiver[i]!) ?? []), i]);

  const streams: Stream[] = [];
  const confluences: Point[] = [];
  const mouths = Array.from(order).filter((i) => carries[i] === 1 && receiver[i]! < 0);
  mouths.sort((a, b) => flow[b]! - flow[a]!);
  const waiting: Waiting[] = mouths.map((mouth) => ({ mouth, into: -1, parent: [] }));
  for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
    const stem: number[] = next.into < 0 ? [] : [next.into];
    const side: { mouth: number; into: number }[] = [];
    for (let i: number | undefined = next.mouth; i !== undefined; ) {
      stem.push(i);
      const up: number[] = (feeders.get(i) ?? []).sort((a, b) => flow[b]! - flow[a]! || a - b);
      for (const other of up.slice(1)) side.push({ mouth: other, into: i });
      i = up[0];
    }
    const line = stem.reverse();
    if (lengthOf(ground, line) < SHORTEST) continue;
    const points = smooth(ground, line);
    if (next.into >= 0) points[points.length - 1] = nearestOnLine(points[points.length - 1]!, next.parent).at;
    if (next.into >= 0) confluences.push(points[points.length - 1]!);
    const turns = line.findIndex((i) => flow[i]! >= LARGE);
    if (turns > 12 && line.length - turns > 12) {
      const cut = Math.floor(turns / 2);
      streams.push({
        points: points.slice(0, cut + 1),
        flow: flow[line[turns]!]!,
        small: true,
        begins: true,
      });
      streams.push({ points: points.slice(cut), flow: flow[next.mouth]!, small: false, begins: false });
    } else {
      const small = turns < 0 || turns > line.length / 2;
      streams.push({ points, flow: flow[next.mouth]!, small, begins: true });
    }
    for (const branch of side) waiting.push({ ...branch, parent: points });
  }
  return { streams, confluences };
}

export function placeOf({ columns, rows, cell }: Heights, i: number): Point {
  return [((i % columns) + 0.5) * cell, (rows - Math.floor(i / columns) - 0.5) * cell];
}

export function cellOf({ columns, rows, cell }: Heights, [x, y]: Point): number {
  return (rows - 1 - Math.floor(y / cell)) * columns + Math.floor(x / cell);
}

function lengthOf(ground: Heights, line: readonly number[]): number {
  let sum = 0;
  for (let k = 1; k < line.length; k++)
    sum += distance(placeOf(ground, line[k - 1]!), placeOf(ground, line[k]!));
  return sum;
}

/** The stairs of the cells smoothed by a running mean that holds both ends, then every second vertex. */
function smooth(ground: Heights, line: readonly number[]): Point[] {
  const points = line.map((i) => placeOf(ground, i));
  const last = points.length - 1;
  const softened = points.map((_, k): Point => {
    const reach = Math.min(2, k, last - k);
    let x = 0;
    let y = 0;
    for (let d = -reach; d <= reach; d++) {
      x += points[k + d]![0];
      y += points[k + d]![1];
    }
    return [x / (2 * reach + 1), y / (2 * reach + 1)];
  });
  return softened.filter((_, k) => k % 2 === 0 || k === last);
}
