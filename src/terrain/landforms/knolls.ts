import { centreEast, centreNorth, type Raster } from '../../grid/raster.ts';
import type { Landform } from './landform.ts';

/** Steps of height by which cells are ordered, metres. Prominences are right to one of them. */
const STEP_METRES = 0.05;
const MAX_STEPS = 1_000_000;

/**
 * A top with at least this much ground no more than TOP_METRES below it, in cells enough to tell, is a flat summit. Common practice,
 * no source.
 */
const FLAT_SQUARE_METRES = 20_000;
const FLAT_CELLS = 8;
const TOP_METRES = 2;

/**
 * Knolls, flat summits and cols by prominence: the ground is uncovered from the top down, islands grow and meet, and where two meet, the
 * lower summit ends with a prominence of its height above that meeting place, which is its col. A summit of `leastMetres` or more is
 * kept, with its col. A summit or col on the edge of the ground, where half of it may be missing, is not.
 */
export function knollsAndCols(elevation: Raster, leastMetres: number): Landform[] {
  const { columns, rows, data } = elevation;
  // the difference of two Float32 heights may fall short by their rounding
  const least = leastMetres - 1e-3;
  const order = fromTheTop(data);
  // islands as a forest: parent −1 unseen; the root of each holds its summit and its cells near the summit's height
  const parent = new Int32Array(data.length).fill(-1);
  const summit = new Int32Array(data.length);
  const topCells = new Int32Array(data.length);
  const find = (i: number): number => {
    let root = i;
    while (parent[root] !== root) root = parent[root]!;
    for (let k = i; parent[k] !== root; ) {
      const next = parent[k]!;
      parent[k] = root;
      k = next;
    }
    return root;
  };
  const found: Landform[] = [];
  const keep = (top: number, flat: number, prominence: number): void => {
    if (prominence < least || onEdge(elevation, top)) return;
    const wide = flat >= FLAT_CELLS && flat * elevation.cell * elevation.cell >= FLAT_SQUARE_METRES;
    const kind = wide ? 'flat-summit' : 'knoll';
    found.push({ kind, at: centre(elevation, top), reliefMetres: prominence });
  };

  for (const i of order) {
    const z = data[i]!;
    const c = i % columns;
    const r = (i - c) / columns;
    let root = i;
    parent[i] = i;
    summit[i] = i;
    topCells[i] = 1;
    for (let y = Math.max(r - 1, 0); y <= Math.min(r + 1, rows - 1); y++) {
      for (let x = Math.max(c - 1, 0); x <= Math.min(c + 1, columns - 1); x++) {
        const n = y * columns + x;
        if (n === i || parent[n] === -1) continue;
        const other = find(n);
        if (other === root) continue;
        const a = summit[root]!;
        const b = summit[other]!;
        // the island with the higher summit lives on; of equal ones the one uncovered first
        const otherWins = data[b]! > data[a]! || (data[b] === data[a] && b < a) || a === i;
        const winner = otherWins ? other : root;
        const loser = otherWins ? root : other;
        const low = summit[loser]!;
        const prominence = data[low]! - z;
        if (low !== i && prominence >= least) {
          keep(low, topCells[loser]!, prominence);
          if (!onEdge(elevation, i) && !onEdge(elevation, low)) {
            found.push({ kind: 'col', at: centre(elevation, i), reliefMetres: prominence });
          }
        }
        parent[loser] = winner;
        if (data[summit[winner]!]! - z <= TOP_METRES) topCells[winner]! += topCells[loser]!;
        root = winner;
      }
    }
  }
  // what never met a higher island: the top of each piece of ground
  const lowest = order.length === 0 ? 0 : data[order[order.length - 1]!]!;
  for (let i = 0; i < data.length; i++) {
    if (parent[i] === i) keep(summit[i]!, topCells[i]!, data[summit[i]!]! - lowest);
  }
  return found;
}

/** Cells with a height, highest first, by counting. */
function fromTheTop(data: Float32Array): Int32Array {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let cells = 0;
  for (let i = 0; i < data.length; i++) {
    const z = data[i]!;
    if (Number.isNaN(z)) continue;
    cells++;
    if (z < low) low = z;
    if (z > high) high = z;
  }
  const order = new Int32Array(cells);
  if (cells === 0) return order;
  const perMetre = 1 / Math.max(STEP_METRES, (high - low) / MAX_STEPS);
  const starts = new Int32Array(Math.floor((high - low) * perMetre) + 2);
  for (let i = 0; i < data.length; i++) {
    const z = data[i]!;
    if (!Number.isNaN(z)) starts[Math.floor((high - z) * perMetre) + 1]!++;
  }
  for (let s = 1; s < starts.length; s++) starts[s]! += starts[s - 1]!;
  for (let i = 0; i < data.length; i++) {
    const z = data[i]!;
    if (!Number.isNaN(z)) order[starts[Math.floor((high - z) * perMetre)]!++] = i;
  }
  return order;
}

function onEdge({ columns, rows, data }: Raster, i: number): boolean {
  const c = i % columns;
  const r = (i - c) / columns;
  if (c === 0 || r === 0 || c === columns - 1 || r === rows - 1) return true;
  return Number.isNaN(data[i - 1]! + data[i + 1]! + data[i - columns]! + data[i + columns]!);
}

function centre(elevation: Raster, i: number): readonly [number, number] {
  return [
    centreEast(elevation, i % elevation.columns),
    centreNorth(elevation, Math.floor(i / elevation.columns)),
  ];
}
