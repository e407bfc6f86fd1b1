import { PACE_STEPS } from '../cost/surface.ts';
import { PACE_LAST, PACE_ZERO } from './edge.ts';
import { type PaddedGrid, STRIDE } from './padded.ts';

/** A pace has a corner where its slope per unit of gradient jumps by more than this share of it. Smooth published curves stay below 0.1. */
const CORNER = 0.2;
/** Cells on either side of a ray that are reached from it. */
const ASIDE = 2.5;
/** Steps before a cell from which it is left for the cell. */
const LEAVING = [16, 64, 256] as const;

/**
 * A pace with a corner (Tobler's at −0.05, Naismith's on the level) keeps a corner in the front: the way on from the source at just that
 * gradient is the best one for many a front, and seconds have a crease along it, which interpolation between cells blunts. From a lone
 * source these ways are followed over the ground, a cell's length at a time, and the cells beside them start with the seconds of
 * leaving the way 16, 64 or 256 steps before on a straight line.
 */
export function cornerRays(
  grid: PaddedGrid,
  cell: number,
  pace: Float64Array,
  source: number,
  wait: (handle: number) => void,
): void {
  const ground = new Between(grid, cell, pace);
  const down = STRIDE * grid.width;
  const row = Math.floor(source / down);
  const column = (source - row * down) / STRIDE;
  for (let k = 1; k < PACE_LAST; k++) {
    const bend = (pace[k - 1]! - 2 * pace[k]! + pace[k + 1]!) * PACE_STEPS;
    if (!(bend > CORNER * pace[k]!)) continue;
    for (const side of [1, -1] as const) {
      const ray = follow(ground, column, row, (k - PACE_ZERO) / PACE_STEPS, side);
      reachBeside(ground, ray, wait);
    }
  }
}

/** Points of a ray in columns and rows of the padded grid, and the seconds to each. */
interface Ray {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly seconds: readonly number[];
}

/** The way from a point on which the ground rises by `gradient` all along, to the left or right of the fall line, while there is one. */
function follow(ground: Between, column: number, row: number, gradient: number, side: 1 | -1): Ray {
  const x = [column];
  const y = [row];
  const seconds = [0];
  const most = 2 * (ground.columns + ground.rows);
  for (let s = 0; s < most; s++) {
    const first = ground.heading(x[s]!, y[s]!, gradient, side);
    if (first === null) break;
    // by the heading halfway, so that a curve is not left
    const step = ground.heading(x[s]! + first[0] / 2, y[s]! + first[1] / 2, gradient, side);
    if (step === null) break;
    const next = seconds[s]! + ground.seconds(x[s]!, y[s]!, x[s]! + step[0], y[s]! + step[1]);
    if (!(next < Number.POSITIVE_INFINITY)) break;
    x.push(x[s]! + step[0]);
    y.push(y[s]! + step[1]);
    seconds.push(next);
  }
  return { x, y, seconds };
}

function reachBeside(ground: Between, { x, y, seconds }: Ray, wait: (handle: number) => void): void {
  const { cells, width } = ground.grid;
  for (let s = LEAVING[0]; s < x.length; s++) {
    const dx = x[s]! - x[s - 1]!;
    const dy = y[s]! - y[s - 1]!;
    const column = Math.floor(x[s]!);
    const row = Math.floor(y[s]!);
    for (let r = row - 2; r <= row + 3; r++) {
      for (let c = column - 2; c <= column + 3; c++) {
        if (r < 1 || c < 1 || r > ground.rows || c > ground.columns) continue;
        const [ux, uy] = [c - x[s]!, r - y[s]!];
        if (Math.abs(ux * dx + uy * dy) > 0.5 || Math.abs(ux * dy - uy * dx) > ASIDE) continue;
        const handle = STRIDE * (r * width + c);
        let least = cells[handle + 2]!;
        for (const back of LEAVING) {
          const from = Math.max(0, s - back);
          const reached = Math.fround(seconds[from]! + ground.seconds(x[from]!, y[from]!, c, r));
          if (reached < least) least = reached;
        }
        if (least === cells[handle + 2]) continue;
        cells[handle + 2] = least;
        wait(handle);
      }
    }
  }
}

/** The ground between cell centres: heights and factors bilinear in the square of four. */
class Between {
  readonly grid: PaddedGrid;
  readonly columns: number;
  readonly rows: number;
  readonly #cell: number;
  readonly #pace: Float64Array;
  constructor(grid: PaddedGrid, cell: number, pace: Float64Array) {
    this.grid = grid;
    this.columns = grid.width - 2;
    this.rows = grid.cells.length / (STRIDE * grid.width) - 2;
    this.#cell = cell;
    this.#pace = pace;
  }

  /** Unit step at a gradient, left or right of the fall line; null where the ground is flatter than that, or closed. */
  heading(x: number, y: number, gradient: number, side: 1 | -1): readonly [number, number] | null {
    const c = Math.floor(x);
    const r = Math.floor(y);
    if (!(c >= 1 && r >= 1 && c < this.columns && r < this.rows)) return null;
    const { cells, width } = this.grid;
    const a = STRIDE * (r * width + c);
    const b = a + STRIDE;
    const d = a + STRIDE * width;
    const e = d + STRIDE;
    if (!(cells[a + 1]! + cells[b + 1]! + cells[d + 1]! + cells[e + 1]! < Number.POSITIVE_INFINITY))
      return null;
    const [u, v] = [x - c, y - r];
    const east = ((cells[b]! - cells[a]!) * (1 - v) + (cells[e]! - cells[d]!) * v) / this.#cell;
    const south = ((cells[d]! - cells[a]!) * (1 - u) + (cells[e]! - cells[b]!) * u) / this.#cell;
    const squared = east * east + south * south;
    if (!(squared > gradient * gradient)) return null;
    const up = gradient / squared;
    const across = (side * Math.sqrt(squared - gradient * gradient)) / squared;
    return [up * east - across * south, up * south + across * east];
  }

  /** Seconds of a straight line, read at most a cell apart; Infinity when it touches a closed cell. */
  seconds(fromX: number, fromY: number, toX: number, toY: number): number {
    const [dx, dy] = [toX - fromX, toY - fromY];
    const count = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
    const metres = (this.#cell * Math.sqrt(dx * dx + dy * dy)) / count;
    if (metres === 0) return 0;
    const pace = this.#pace;
    let z = this.#read(0, fromX, fromY);
    let f = this.#read(1, fromX, fromY);
    let sum = 0;
    for (let step = 1; step <= count; step++) {
      const x = fromX + (dx * step) / count;
      const y = fromY + (dy * step) / count;
      const nextZ = this.#read(0, x, y);
      const nextF = this.#read(1, x, y);
      const g = ((nextZ - z) / metres) * PACE_STEPS + PACE_ZERO;
      const at = g >= PACE_LAST ? PACE_LAST - 1 : g > 0 ? g | 0 : 0;
      const share = g >= PACE_LAST ? 1 : g > 0 ? g - at : 0;
      sum += metres * 0.5 * (f + nextF) * (pace[at]! + (pace[at + 1]! - pace[at]!) * share);
      z = nextZ;
      f = nextF;
    }
    return sum;
  }

  #read(slot: number, x: number, y: number): number {
    const { cells, width } = this.grid;
    const c = Math.floor(x);
    const r = Math.floor(y);
    const [u, v] = [x - c, y - r];
    const a = STRIDE * (r * width + c) + slot;
    const far = (share: number, offset: number) => (share < 1e-9 ? 0 : offset);
    const across = far(u, STRIDE);
    const below = far(v, STRIDE * width);
    const top = across === 0 ? cells[a]! : cells[a]! * (1 - u) + cells[a + across]! * u;
    if (below === 0) return top;
    const foot =
      across === 0 ? cells[a + below]! : cells[a + below]! * (1 - u) + cells[a + below + across]! * u;
    return top * (1 - v) + foot * v;
  }
}
