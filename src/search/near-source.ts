import { PACE_STEPS } from '../cost/surface.ts';
import { PACE_LAST, PACE_ZERO } from './edge.ts';
import { type PaddedGrid, STRIDE } from './padded.ts';

/** Cells round a lone source that straight lines reach first. */
const BALL = 128;

/**
 * Near a lone source the front is strongly curved, where interpolation is poorest: cells within `BALL` start with the seconds of the
 * straight line from the source, heights and factors read between cell centres at every step of the longer axis.
 */
export function straightLines(
  grid: PaddedGrid,
  cell: number,
  pace: Float64Array,
  source: number,
  wait: (handle: number) => void,
): void {
  const { cells, width } = grid;
  const down = STRIDE * width;
  const row = Math.floor(source / down);
  const column = (source - row * down) / STRIDE;
  const rows = cells.length / down;
  for (let dr = -BALL; dr <= BALL; dr++) {
    for (let dc = -BALL; dc <= BALL; dc++) {
      const r = row + dr;
      const c = column + dc;
      if ((dr === 0 && dc === 0) || dr * dr + dc * dc > BALL * BALL) continue;
      if (r < 1 || c < 1 || r >= rows - 1 || c >= width - 1) continue;
      const handle = r * down + c * STRIDE;
      const seconds = Math.fround(straightSeconds(cells, cell, pace, source, dc, dr, down));
      if (seconds < cells[handle + 2]!) {
        cells[handle + 2] = seconds;
        wait(handle);
      }
    }
  }
}

/** Infinity when the line touches a closed cell. */
function straightSeconds(
  cells: Float32Array,
  cell: number,
  pace: Float64Array,
  source: number,
  columns: number,
  rows: number,
  down: number,
): number {
  const wide = Math.abs(columns) >= Math.abs(rows);
  const count = Math.abs(wide ? columns : rows);
  const along = Math.sign(wide ? columns : rows) * (wide ? STRIDE : down);
  const across = Math.sign(wide ? rows : columns) * (wide ? down : STRIDE);
  const slant = Math.abs(wide ? rows : columns) / count;
  const metres = cell * Math.sqrt(1 + slant * slant);
  let seconds = 0;
  let z = cells[source]!;
  let f = cells[source + 1]!;
  for (let step = 1; step <= count; step++) {
    const whole = Math.floor(step * slant + 1e-9);
    const part = step * slant - whole;
    const near = source + step * along + whole * across;
    const far = part > 1e-6 ? near + across : near;
    const zNext = cells[near]! + (cells[far]! - cells[near]!) * part;
    const fNext = far === near ? cells[near + 1]! : cells[near + 1]! * (1 - part) + cells[far + 1]! * part;
    const y = ((zNext - z) / metres) * PACE_STEPS + PACE_ZERO;
    const at = y >= PACE_LAST ? PACE_LAST - 1 : y > 0 ? y | 0 : 0;
    const share = y >= PACE_LAST ? 1 : y > 0 ? y - at : 0;
    seconds += metres * 0.5 * (f + fNext) * (pace[at]! + (pace[at + 1]! - pace[at]!) * share);
    z = zNext;
    f = fNext;
  }
  return seconds;
}
