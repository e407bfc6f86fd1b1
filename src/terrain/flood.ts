/** A raster with a border of missing cells, so that no neighbour needs a test for the edge. */
export interface Padded {
  readonly width: number;
  /** Heights, NaN where missing; raised to the filled surface. */
  readonly level: Float32Array;
  /** The neighbour from which the flood came, as a direction 0–7 clockwise from north; `LEAVES` at outlets. */
  readonly from: Uint8Array;
  /** Offset of the neighbour in each direction. */
  readonly offsets: readonly number[];
}

export const LEAVES = 255;
const UNSEEN = 254;

/** Height of one step of the queue, metres; coarser only where the relief would need more than MAX_STEPS. */
const STEP_METRES = 0.01;
const MAX_STEPS = 2_000_000;

/** Neighbours across a side come before those across a corner, so that the way over a flat is straight where it can be. */
const SIDES_FIRST = [0, 2, 4, 6, 1, 3, 5, 7];

/**
 * Priority-flood (Barnes, Lehman & Mulla 2014, Computers & Geosciences 62:117–127) from the outer edge and the edges of missing cells
 * inwards, with two short cuts. A cell higher than a finished neighbour is finished at its own height, whatever the order (Wei, Zhou &
 * Fu 2019, Int. J. Digital Earth 12:415–427), so slopes are climbed through a plain queue, and only a cell that looks down on unseen
 * ground waits for its turn. It waits in a list per centimetre of height in place of a heap: the same order to a centimetre.
 * `links` is memory of the raster's length for those lists.
 */
export function floodHollows({ level, from, offsets }: Padded, links: Int32Array): void {
  const size = level.length;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < size; i++) {
    const z = level[i]!;
    if (Number.isNaN(z)) continue;
    from[i] = UNSEEN;
    if (z < low) low = z;
    if (z > high) high = z;
  }
  if (!(high >= low)) return;
  const perMetre = 1 / Math.max(STEP_METRES, (high - low) / MAX_STEPS);
  const steps = Math.floor((high - low) * perMetre) + 1;
  const first = new Int32Array(steps).fill(-1);
  const last = new Int32Array(steps);
  const wait = (i: number): void => {
    const step = Math.floor((level[i]! - low) * perMetre);
    links[i] = -1;
    if (first[step] === -1) first[step] = i;
    else links[last[step]!] = i;
    last[step] = i;
  };
  const ways = SIDES_FIRST.map((k) => offsets[k]!);
  const [w0, w1, w2, w3, w4, w5, w6, w7] = ways as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];

  for (let i = 0; i < size; i++) {
    if (from[i] !== UNSEEN) continue;
    // a missing neighbour makes the sum NaN
    const rim = level[i + w0]! + level[i + w1]! + level[i + w2]! + level[i + w3]!;
    const corners = level[i + w4]! + level[i + w5]! + level[i + w6]! + level[i + w7]!;
    if (Number.isNaN(rim + corners)) wait(i);
  }
  for (let step = 0; step < steps; step++) {
    for (let i = first[step]!; i !== -1; i = links[i]!) from[i] = LEAVES;
  }

  const queue = new Int32Array(size);
  for (let step = 0; step < steps; step++) {
    for (let top = first[step]!; top !== -1; top = links[top]!) {
      const now = level[top]!;
      queue[0] = top;
      for (let head = 0, tail = 1; head < tail; head++) {
        const i = queue[head]!;
        const here = level[i]!;
        let above = false;
        for (let turn = 0; turn < 8; turn++) {
          const n = i + ways[turn]!;
          if (from[n] !== UNSEEN) continue;
          if (level[n]! < here) {
            // lower ground may have a lower way out: it is this cell's to fill only when the flood stands at this height
            if (here > now) {
              above = true;
              continue;
            }
            level[n] = here;
          }
          from[n] = (SIDES_FIRST[turn]! + 4) & 7;
          queue[tail++] = n;
        }
        if (above) wait(i);
      }
    }
  }
}
