import { centreEast, centreNorth, type Raster } from '../../grid/raster.ts';
import { distanceToSegment, length, lineLength, type Point } from '../../math/plane.ts';
import { type Landform, reachCells } from './landform.ts';

/** Change of the slope's tangent that makes a break, and that carries one on. Common practice, no source. */
const BREAK_TANGENT = 0.25;
const CARRY_TANGENT = 0.15;
/** Shorter ones are no lines to steer by, metres. */
const LEAST_METRES = 150;

/**
 * Breaks of slope: lines along which the ground turns from gentle to steep or back. Along the steepest way through a cell the tangent
 * over the reach above is compared with that over the reach below; cells where the difference is largest along that way, and above the
 * limits, are joined into lines.
 */
export function slopeBreaks(elevation: Raster): Landform[] {
  const { columns, rows, cell, data } = elevation;
  const n = reachCells(cell);
  const bend = new Float32Array(data.length);
  const stepAlong = new Int32Array(data.length);
  for (let r = n; r < rows - n; r++) {
    for (let c = n; c < columns - n; c++) {
      const i = r * columns + c;
      const east = data[i + n]! - data[i - n]!;
      const north = data[i - n * columns]! - data[i + n * columns]!;
      const steep = length(east, north);
      if (!(steep > 0)) continue;
      const dc = Math.round((east / steep) * n);
      const dr = -Math.round((north / steep) * n);
      const up = data[i + dr * columns + dc]!;
      const down = data[i - dr * columns - dc]!;
      const change = (up - data[i]! - (data[i]! - down)) / (length(dc, dr) * cell);
      if (!(Math.abs(change) >= CARRY_TANGENT)) continue;
      bend[i] = change;
      stepAlong[i] =
        Math.sign(Math.round((north / steep) * 1.3)) * -columns + Math.sign(Math.round((east / steep) * 1.3));
    }
  }
  // thin to the crest of the change
  const crest = new Uint8Array(data.length);
  for (let i = 0; i < data.length; i++) {
    const change = Math.abs(bend[i]!);
    if (change === 0) continue;
    const step = stepAlong[i]!;
    const ahead = bend[i + step]! * Math.sign(bend[i]!);
    const behind = bend[i - step]! * Math.sign(bend[i]!);
    if (change >= ahead && change > behind) crest[i] = bend[i]! > 0 ? 1 : 2;
  }
  return traceLines(elevation, crest, bend, n * cell);
}

/** Joins crest cells of one sign into lines, from their strongest cell outwards both ways. */
function traceLines(elevation: Raster, crest: Uint8Array, bend: Float32Array, reach: number): Landform[] {
  const { columns, cell } = elevation;
  const seeds: number[] = [];
  for (let i = 0; i < crest.length; i++)
    if (crest[i] !== 0 && Math.abs(bend[i]!) >= BREAK_TANGENT) seeds.push(i);
  seeds.sort((a, b) => Math.abs(bend[b]!) - Math.abs(bend[a]!) || a - b);
  const found: Landform[] = [];
  for (const seed of seeds) {
    const sign = crest[seed]!;
    if (sign === 0) continue;
    crest[seed] = 0;
    const cells = [
      ...follow(crest, seed, sign, columns).reverse(),
      seed,
      ...follow(crest, seed, sign, columns),
    ];
    const points = cells.map(
      (i): Point => [centreEast(elevation, i % columns), centreNorth(elevation, Math.floor(i / columns))],
    );
    if (lineLength(points) < LEAST_METRES) continue;
    const mean = cells.reduce((sum, i) => sum + Math.abs(bend[i]!), 0) / cells.length;
    found.push({ kind: 'break-of-slope', at: simplified(points, cell), reliefMetres: mean * reach });
  }
  return found;
}

/** The cells of a chain from a cell on, sides before corners, and a step over one missing cell; takes them off the crest. */
function follow(crest: Uint8Array, from: number, sign: number, columns: number): number[] {
  const chain: number[] = [];
  const near = [1, -1, columns, -columns, columns + 1, columns - 1, -columns + 1, -columns - 1];
  const steps = [...near, ...near.map((s) => 2 * s)];
  for (let i = from; ; ) {
    const step = steps.find((s) => crest[i + s] === sign);
    if (step === undefined) return chain;
    i += step;
    crest[i] = 0;
    for (const s of near)
      if (crest[i + s] === sign && chain.length > 0 && near.includes(i + s - chain[chain.length - 1]!))
        crest[i + s] = 0;
    chain.push(i);
  }
}

/** Douglas & Peucker (1973): drops vertices that lie within a cell of the line without them. */
function simplified(points: readonly Point[], tolerance: number): Point[] {
  const kept = new Uint8Array(points.length);
  kept[0] = kept[points.length - 1] = 1;
  const parts: (readonly [number, number])[] = [[0, points.length - 1]];
  for (let part = parts.pop(); part !== undefined; part = parts.pop()) {
    const [a, b] = part;
    let far = tolerance;
    let at = -1;
    for (let i = a + 1; i < b; i++) {
      const away = distanceToSegment(points[i]!, points[a]!, points[b]!);
      if (away > far) {
        far = away;
        at = i;
      }
    }
    if (at < 0) continue;
    kept[at] = 1;
    parts.push([a, at], [at, b]);
  }
  return points.filter((_, i) => kept[i] === 1);
}
