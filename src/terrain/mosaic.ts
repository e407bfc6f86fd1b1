import { UserError } from '../door/user-error.ts';
import type { DecodedGrid, DecodeLimits } from './decoded.ts';

/** A box in the units of a CRS. */
export interface Box {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** How far two tiles may be out of step, in cells. */
const STEP = 0.01;

export function boxOf(grid: DecodedGrid): Box {
  const { west, north, columns, rows, cellEast, cellNorth } = grid;
  return { west, north, east: west + columns * cellEast, south: north - rows * cellNorth };
}

/** Whether the cells of two tiles lie on one lattice. */
export function inStep(a: DecodedGrid, b: DecodedGrid): boolean {
  const reach = Math.max(a.columns, a.rows, b.columns, b.rows);
  if (
    Math.abs(a.cellEast / b.cellEast - 1) * reach > STEP ||
    Math.abs(a.cellNorth / b.cellNorth - 1) * reach > STEP
  )
    return false;
  const x = (b.west - a.west) / a.cellEast;
  const y = (a.north - b.north) / a.cellNorth;
  return Math.abs(x - Math.round(x)) <= STEP && Math.abs(y - Math.round(y)) <= STEP;
}

/**
 * One grid of tiles that are in step, no larger than the box round them all and than `window`. Where tiles overlap the first one with
 * a height counts. Null when nothing lies in the window. Throws `UserError` past the limit of cells, before it allocates.
 */
export function mosaic(
  tiles: readonly DecodedGrid[],
  limits: DecodeLimits,
  window?: Box,
): DecodedGrid | null {
  const first = tiles[0]!;
  const { cellEast, cellNorth } = first;
  // whole cells of the first tile's lattice, rows counted southwards from its north edge
  let c0 = Number.POSITIVE_INFINITY;
  let r0 = Number.POSITIVE_INFINITY;
  let c1 = Number.NEGATIVE_INFINITY;
  let r1 = Number.NEGATIVE_INFINITY;
  const places = tiles.map((tile) => ({
    tile,
    c: Math.round((tile.west - first.west) / cellEast),
    r: Math.round((first.north - tile.north) / cellNorth),
  }));
  for (const { tile, c, r } of places) {
    c0 = Math.min(c0, c);
    r0 = Math.min(r0, r);
    c1 = Math.max(c1, c + tile.columns);
    r1 = Math.max(r1, r + tile.rows);
  }
  if (window !== undefined) {
    c0 = Math.max(c0, Math.floor((window.west - first.west) / cellEast + STEP));
    c1 = Math.min(c1, Math.ceil((window.east - first.west) / cellEast - STEP));
    r0 = Math.max(r0, Math.floor((first.north - window.north) / cellNorth + STEP));
    r1 = Math.min(r1, Math.ceil((first.north - window.south) / cellNorth - STEP));
  }
  const columns = c1 - c0;
  const rows = r1 - r0;
  if (!(columns > 0 && rows > 0)) return null;
  if (tiles.length === 1 && columns === first.columns && rows === first.rows) return first;
  if (columns * rows > limits.cells)
    throw new UserError({
      what: 'the tiles together are too large',
      got: `${columns} × ${rows} cells`,
      expected: `at most ${limits.cells} cells: name a box`,
    });
  const data = new Float32Array(columns * rows).fill(Number.NaN);
  for (const { tile, c, r } of places) paste(tile, c - c0, r - r0, data, columns, rows);
  return {
    ...first,
    columns,
    rows,
    data,
    west: first.west + c0 * cellEast,
    north: first.north - r0 * cellNorth,
  };
}

function paste(
  tile: DecodedGrid,
  c: number,
  r: number,
  data: Float32Array,
  columns: number,
  rows: number,
): void {
  const from = Math.max(0, -c);
  const to = Math.min(tile.columns, columns - c);
  for (let y = Math.max(0, -r); y < Math.min(tile.rows, rows - r); y++) {
    const source = y * tile.columns;
    const target = (r + y) * columns + c;
    for (let x = from; x < to; x++) {
      const i = target + x;
      if (Number.isNaN(data[i]!)) data[i] = tile.data[source + x]!;
    }
  }
}
