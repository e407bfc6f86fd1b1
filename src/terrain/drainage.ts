import type { Raster } from '../grid/raster.ts';

/** Where the water of a raster goes. Same georeference as the elevation. */
export interface Drainage {
  /** Heights with every hollow filled to its spill level, metres; NaN where missing. Right to 1 cm. */
  readonly filled: Raster;
  /** Direction 0–7 of the receiving neighbour, clockwise from north; `LEAVES` where the water leaves the map or the height is missing. */
  readonly receiver: Raster<Uint8Array>;
  /** Upslope area in cells, the cell itself included; 0 where the height is missing. */
  readonly flow: Raster;
}

export const LEAVES = 255;

/** Height of one step of the queue, metres; coarser only where the relief would need more than MAX_STEPS. */
const STEP_METRES = 0.01;
const MAX_STEPS = 2_000_000;

/** Neighbours across a side come before those across a corner, so that the way over a flat is straight where it can be. */
const SIDES_FIRST = [0, 2, 4, 6, 1, 3, 5, 7];

const UNSEEN = 0;
const QUEUED = 1;
const DONE = 2;

/** A raster with a border of missing cells, so that no neighbour needs a test for the edge. */
interface Padded {
  readonly width: number;
  readonly level: Float32Array;
  readonly state: Uint8Array;
  readonly receiver: Uint8Array;
  /** Offset of the neighbour in each direction, clockwise from north. */
  readonly offsets: readonly number[];
  readonly low: number;
  readonly high: number;
}

/**
 * Priority-flood (Barnes, Lehman & Mulla 2014, Computers & Geosciences 62:117–127) from the outer edge and from the edges of
 * missing cells inwards, then D8: each cell drains to the steepest lower neighbour of the filled surface, and across a flat the way
 * the flood came, breadth first from its outlet. The order of flooding is an order of the drainage too, so that one pass backwards
 * accumulates it.
 */
export function drainage(elevation: Raster): Drainage {
  const { columns, rows } = elevation;
  const padded = pad(elevation);
  const { width, level } = padded;
  const links = new Int32Array(level.length);
  const order = flood(padded, links);
  const area = accumulate(padded, order, links);
  const filled = new Float32Array(columns * rows);
  const receiver = new Uint8Array(columns * rows);
  const flow = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    const from = (r + 1) * width + 1;
    filled.set(level.subarray(from, from + columns), r * columns);
    receiver.set(padded.receiver.subarray(from, from + columns), r * columns);
    flow.set(area.subarray(from, from + columns), r * columns);
  }
  return {
    filled: { ...elevation, data: filled },
    receiver: { ...elevation, data: receiver },
    flow: { ...elevation, data: flow },
  };
}

function pad(elevation: Raster): Padded {
  const { columns, rows, data } = elevation;
  const width = columns + 2;
  const size = width * (rows + 2);
  const level = new Float32Array(size).fill(Number.NaN);
  const state = new Uint8Array(size).fill(DONE);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let r = 0; r < rows; r++) {
    let i = (r + 1) * width + 1;
    for (let k = r * columns, end = k + columns; k < end; k++, i++) {
      const z = data[k]!;
      level[i] = z;
      if (Number.isNaN(z)) continue;
      state[i] = UNSEEN;
      if (z < low) low = z;
      if (z > high) high = z;
    }
  }
  return {
    width,
    level,
    state,
    receiver: new Uint8Array(size).fill(LEAVES),
    offsets: [-width, 1 - width, 1, width + 1, width, width - 1, -1, -1 - width],
    low,
    high,
  };
}

/**
 * Raises `level`, sets `receiver`, and gives the cells in order of flooding. In place of a heap, one first-in-first-out list per
 * centimetre of height, threaded through `links`: the same order to a centimetre without a comparison.
 */
function flood(padded: Padded, links: Int32Array): Int32Array {
  const { level, state, receiver, offsets, low, high } = padded;
  const stepMetres = Math.max(STEP_METRES, (high - low) / MAX_STEPS);
  const perMetre = 1 / stepMetres;
  const steps = high >= low ? Math.floor((high - low) * perMetre) + 1 : 0;
  const first = new Int32Array(steps).fill(-1);
  const last = new Int32Array(steps);
  const put = (i: number, step: number): void => {
    state[i] = QUEUED;
    links[i] = -1;
    if (first[step] === -1) first[step] = i;
    else links[last[step]!] = i;
    last[step] = i;
  };

  let cells = 0;
  for (let i = 0; i < level.length; i++) {
    if (state[i] !== UNSEEN) continue;
    cells++;
    let open = false;
    for (let k = 0; k < 8; k++) {
      const z = level[i + offsets[k]!]!;
      if (Number.isNaN(z)) open = true;
    }
    if (open) put(i, Math.floor((level[i]! - low) * perMetre));
  }

  const order = new Int32Array(cells);
  let done = 0;
  for (let step = 0; step < steps; step++) {
    for (let i = first[step]!; i !== -1; i = links[i]!) {
      const here = level[i]!;
      state[i] = DONE;
      order[done++] = i;
      let steepest = 0;
      for (let turn = 0; turn < 8; turn++) {
        const k = SIDES_FIRST[turn]!;
        const n = i + offsets[k]!;
        const seen = state[n]!;
        if (seen === DONE) {
          // every lower neighbour has been flooded before this cell; a missing one compares false
          const fall = (k & 1) === 0 ? here - level[n]! : (here - level[n]!) * Math.SQRT1_2;
          if (fall > steepest) {
            steepest = fall;
            receiver[i] = k;
          }
        } else if (seen === UNSEEN) {
          receiver[n] = (k + 4) & 7;
          const there = level[n]!;
          if (there > here) put(n, Math.floor((there - low) * perMetre));
          else {
            level[n] = here;
            put(n, step);
          }
        }
      }
    }
  }
  return order;
}

/** Cells that drain through each cell; reuses `area` as its memory. */
function accumulate(padded: Padded, order: Int32Array, area: Int32Array): Int32Array {
  const { receiver, offsets } = padded;
  area.fill(0);
  for (let n = 0; n < order.length; n++) area[order[n]!] = 1;
  for (let n = order.length - 1; n >= 0; n--) {
    const i = order[n]!;
    const k = receiver[i]!;
    if (k !== LEAVES) area[i + offsets[k]!]! += area[i]!;
  }
  return area;
}
