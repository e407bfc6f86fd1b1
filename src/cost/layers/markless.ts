import type { Georeference } from '../../grid/raster.ts';

/** Markless distance is not told apart beyond this, metres. */
export const MARKLESS_CAP = 500;

/** Rounds of two sweeps after which a maze of barriers is left as it is: distances are then too long, never too short. */
const ROUNDS = 40;

/**
 * Metres of the least walk from each cell to one from which something recognisable is in view, round barriers, at most
 * `MARKLESS_CAP`. Steps to 8 neighbours, √2 on the diagonal; two sweeps over the raster (Rosenfeld & Pfaltz 1966), repeated while
 * a walk round a barrier still shortens something.
 */
export function marklessDistance(g: Georeference, seen: Uint8Array, closed: Uint8Array | null): Float32Array {
  const { columns, rows, cell } = g;
  const width = columns + 2;
  // a border of cells at the cap: no neighbour needs a bounds test
  const far = new Float32Array(width * (rows + 2)).fill(MARKLESS_CAP);
  let barriers = false;
  for (let r = 0, i = 0; r < rows; r++) {
    let k = (r + 1) * width + 1;
    for (let c = 0; c < columns; c++, i++, k++) {
      if (closed !== null && closed[i] !== 0) barriers = true;
      else if (seen[i] !== 0) far[k] = 0;
    }
  }
  const straight = Math.fround(cell);
  const diagonal = Math.fround(cell * Math.SQRT2);
  for (let round = 0; round < ROUNDS; round++) {
    const changed =
      sweep(far, closed, columns, rows, 1, straight, diagonal) +
      sweep(far, closed, columns, rows, -1, straight, diagonal);
    if (changed === 0 || !barriers) break;
  }
  const metres = new Float32Array(columns * rows);
  for (let r = 0; r < rows; r++) {
    const k = (r + 1) * width + 1;
    metres.set(far.subarray(k, k + columns), r * columns);
  }
  return metres;
}

/** One sweep, forward (way 1) from the north-west or back (−1); gives how many cells came nearer. */
function sweep(
  far: Float32Array,
  closed: Uint8Array | null,
  columns: number,
  rows: number,
  way: 1 | -1,
  straight: number,
  diagonal: number,
): number {
  const width = columns + 2;
  const behind = -way * width;
  let changed = 0;
  for (let y = 0; y < rows; y++) {
    const r = way === 1 ? y : rows - 1 - y;
    let k = (r + 1) * width + (way === 1 ? 1 : columns);
    let i = r * columns + (way === 1 ? 0 : columns - 1);
    for (let c = 0; c < columns; c++, k += way, i += way) {
      const had = far[k]!;
      if (had === 0 || (closed !== null && closed[i] !== 0)) continue;
      let least = far[k - way]! + straight;
      const b = far[k + behind]! + straight;
      if (b < least) least = b;
      const a = far[k + behind - 1]! + diagonal;
      if (a < least) least = a;
      const d = far[k + behind + 1]! + diagonal;
      if (d < least) least = d;
      if (least < had) {
        far[k] = least;
        // rounding to Float32 must not look like progress for ever
        if (far[k]! < had) changed++;
      }
    }
  }
  return changed;
}
