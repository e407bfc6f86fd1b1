import type { Raster } from '../grid/raster.ts';
import { floodHollows, LEAVES, type Padded } from './flood.ts';

export { LEAVES };

/** Where the water of a raster goes. Same georeference as the elevation. */
export interface Drainage {
  /** Heights with every hollow filled to its spill level, metres; NaN where missing. Right to 1 cm. */
  readonly filled: Raster;
  /** Direction 0–7 of the receiving neighbour, clockwise from north; `LEAVES` where the water leaves the map or the height is missing. */
  readonly receiver: Raster<Uint8Array>;
  /** Upslope area in cells, the cell itself included; 0 where the height is missing. */
  readonly flow: Raster;
}

/**
 * Hollows filled (`floodHollows`), then D8: each cell drains to the steepest lower neighbour of the filled surface, and across a flat
 * the way the flood came, breadth first from its outlet.
 */
export function drainage(elevation: Raster): Drainage {
  const { columns, rows } = elevation;
  const padded = pad(elevation);
  const { width, level, from } = padded;
  const links = new Int32Array(level.length);
  floodHollows(padded, links);
  steepest(padded, columns, rows);
  const area = accumulate(padded, links);
  const filled = new Float32Array(columns * rows);
  const receiver = new Uint8Array(columns * rows);
  const flow = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    const start = (r + 1) * width + 1;
    filled.set(level.subarray(start, start + columns), r * columns);
    receiver.set(from.subarray(start, start + columns), r * columns);
    flow.set(area.subarray(start, start + columns), r * columns);
  }
  return {
    filled: { ...elevation, data: filled },
    receiver: { ...elevation, data: receiver },
    flow: { ...elevation, data: flow },
  };
}

function pad({ columns, rows, data }: Raster): Padded {
  const width = columns + 2;
  const level = new Float32Array(width * (rows + 2)).fill(Number.NaN);
  for (let r = 0; r < rows; r++) {
    level.set(data.subarray(r * columns, (r + 1) * columns), (r + 1) * width + 1);
  }
  return {
    width,
    level,
    from: new Uint8Array(level.length).fill(LEAVES),
    offsets: [-width, 1 - width, 1, width + 1, width, width - 1, -1, -1 - width],
  };
}

/** Turns `from`, the way the flood came, into the steepest way down where there is one. A missing neighbour compares false. */
function steepest({ width, level, from }: Padded, columns: number, rows: number): void {
  const slant = Math.SQRT1_2;
  for (let r = 1; r <= rows; r++) {
    for (let i = r * width + 1, end = i + columns; i < end; i++) {
      const z = level[i]!;
      let best = 0;
      let way = -1;
      let fall = z - level[i - width]!;
      if (fall > best) {
        best = fall;
        way = 0;
      }
      fall = z - level[i + 1]!;
      if (fall > best) {
        best = fall;
        way = 2;
      }
      fall = z - level[i + width]!;
      if (fall > best) {
        best = fall;
        way = 4;
      }
      fall = z - level[i - 1]!;
      if (fall > best) {
        best = fall;
        way = 6;
      }
      fall = (z - level[i + 1 - width]!) * slant;
      if (fall > best) {
        best = fall;
        way = 1;
      }
      fall = (z - level[i + 1 + width]!) * slant;
      if (fall > best) {
        best = fall;
        way = 3;
      }
      fall = (z - level[i - 1 + width]!) * slant;
      if (fall > best) {
        best = fall;
        way = 5;
      }
      fall = (z - level[i - 1 - width]!) * slant;
      if (fall > best) way = 7;
      if (way >= 0) from[i] = way;
    }
  }
}

const COUNTED = 255;

/** Cells that drain through each cell: from every cell without a donor down to the first that still waits for another. */
function accumulate({ level, from, offsets }: Padded, area: Int32Array): Int32Array {
  const donors = new Uint8Array(level.length);
  for (let i = 0; i < level.length; i++) {
    area[i] = 1;
    const way = from[i]!;
    if (way !== LEAVES) donors[i + offsets[way]!]! += 1;
    else if (Number.isNaN(level[i]!)) area[i] = 0;
  }
  for (let start = 0; start < level.length; start++) {
    if (donors[start] !== 0) continue;
    for (let i = start, way = from[i]!; way !== LEAVES; way = from[i]!) {
      const to = i + offsets[way]!;
      area[to]! += area[i]!;
      const waiting = donors[to]! - 1;
      donors[to] = waiting === 0 ? COUNTED : waiting;
      if (waiting > 0) break;
      i = to;
    }
  }
  return area;
}
