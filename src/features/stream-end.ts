import { cellAt, centreEast, centreNorth, columnOf, type Raster, rowOf } from '../grid/raster.ts';
import { distance, lineLength, type Point, pointAlong } from '../math/plane.ts';
import { pow } from '../math/portable.ts';
import type { Doubt } from './feature.ts';

export type StreamWetness = 'dry' | 'normal' | 'wet' | 'saturated' | 'spate';

/** Shift of a stream's mapped end along its channel, metres, + = uphill. Common practice, no published source; in spate as on saturated ground. */
export const STREAM_END_SHIFT: Readonly<
  Record<StreamWetness, { readonly mean: number; readonly sd: number }>
> = {
  dry: { mean: -40, sd: 30 },
  normal: { mean: 0, sd: 25 },
  wet: { mean: 60, sd: 50 },
  saturated: { mean: 120, sd: 80 },
  spate: { mean: 120, sd: 80 },
};

/** A spring or bedrock holds the head in place: this share of the shift is left. Common practice. */
const FIXED_HEAD = 0.05;

/** Metres that the end lies above its mapped place for a standard normal draw `z`. A head of unknown kind moves. */
export function streamEndShift(wetness: StreamWetness, head: Doubt['head'], z: number): number {
  const { mean, sd } = STREAM_END_SHIFT[wetness];
  return (mean + sd * z) * (head === 'spring-fed' ? FIXED_HEAD : 1);
}

/**
 * Ratio of flowing network lengths for a ratio of flows: L ∝ Q^β.
 * Whiting & Godsey (2016), Hydrol Process 30(13):2305-2316: β = .11 ± .03, from .05 to .20, in basins of 7–21 km².
 */
export function networkLengthRatio(flowRatio: number, beta = 0.11): number {
  return pow(flowRatio, beta);
}

/** The channel about a stream's mapped head. */
export interface Channel {
  /** The mapped stream, head first. */
  readonly down: readonly Point[];
  /** The valley above the head, head first. */
  readonly up: readonly Point[];
}

/** Where the end is after a shift, + = uphill; not beyond what is known of the channel. */
export function shiftedEnd(channel: Channel, shift: number): Point {
  return shift >= 0 ? pointAlong(channel.up, shift) : pointAlong(channel.down, -shift);
}

/**
 * The channel of a stream: mapped below its head and, above it, up to `reach` metres of valley bottom followed on the flow
 * accumulation (cells); without one, straight on in the direction of the highest 30 m.
 */
export function channelOf(
  points: readonly Point[],
  flowsAsDrawn: boolean,
  flow?: Raster,
  reach = 400,
): Channel {
  const down = flowsAsDrawn ? points : [...points].reverse();
  const head = down[0]!;
  const below = pointAlong(down, Math.min(30, lineLength(down)));
  const d = distance(below, head);
  const straight: Point =
    d === 0
      ? head
      : [head[0] + ((head[0] - below[0]) / d) * reach, head[1] + ((head[1] - below[1]) / d) * reach];
  const valley = flow === undefined ? [head] : valleyAbove(flow, head, reach);
  return { down, up: valley.length > 1 ? valley : [head, straight] };
}

/** Cell centres from a place up the valley: always to the neighbour that drains the most among those that drain less. */
function valleyAbove(flow: Raster, from: Point, reach: number): Point[] {
  const { columns, rows, data } = flow;
  const line: Point[] = [from];
  if (cellAt(flow, from[0], from[1]) < 0) return line;
  let c = columnOf(flow, from[0]);
  let r = rowOf(flow, from[1]);
  for (let walked = 0; walked < reach; ) {
    const here = data[r * columns + c]!;
    let most = 1;
    let next = -1;
    for (let dr = -1; dr <= 1; dr++) {
      for (let dc = -1; dc <= 1; dc++) {
        const nc = c + dc;
        const nr = r + dr;
        if (nc < 0 || nr < 0 || nc >= columns || nr >= rows) continue;
        const v = data[nr * columns + nc]!;
        if (v < here && v > most) {
          most = v;
          next = nr * columns + nc;
        }
      }
    }
    if (next < 0) break;
    c = next % columns;
    r = (next - c) / columns;
    const to: Point = [centreEast(flow, c), centreNorth(flow, r)];
    walked += distance(line[line.length - 1]!, to);
    line.push(to);
  }
  return line;
}
