import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type CostSurface, PACE_REACH, PACE_STEPS } from '../../src/cost/surface.ts';
import { edgeSeconds } from '../../src/search/edge.ts';

/** Seeded hills: 24 waves of relief, six kinds of ground in patches, 2 % of cells closed; Tobler's pace off path. */
export function hills(side: number, cell = 10): CostSurface {
  const next = stream(1);
  const waves = Array.from({ length: 24 }, () => ({
    east: 6.28 / (side * (0.03 + next() * 0.4)),
    south: 6.28 / (side * (0.03 + next() * 0.4)),
    phase: next() * 6.28,
    metres: next() * 30,
  }));
  const grounds = [0.8, 1, 1.2, 1.5, 2, 3];
  const elevation = new Float32Array(side * side);
  const factor = new Float32Array(side * side);
  for (let r = 0; r < side; r++) {
    for (let c = 0; c < side; c++) {
      let z = next();
      for (const w of waves) z += w.metres * Math.sin(c * w.east + r * w.south + w.phase);
      elevation[r * side + c] = z;
      const patch = Math.floor((Math.sin(c * 0.05) + Math.sin(r * 0.04) + 2) * 1.49);
      factor[r * side + c] = next() < 0.02 ? Infinity : grounds[patch]!;
    }
  }
  for (const corner of [0, middle(side), side * side - 1]) factor[corner] = 1;
  const toblerPace = (gradient: number) => 3.6 / (6 * 0.6 * Math.exp(-3.5 * Math.abs(gradient + 0.05)));
  const pace = Float32Array.from({ length: 2 * PACE_REACH * PACE_STEPS + 1 }, (_, k) =>
    toblerPace(k / PACE_STEPS - PACE_REACH),
  );
  return { crs: 'EPSG:27700', west: 0, north: 0, cell, columns: side, rows: side, elevation, factor, pace };
}

export function middle(side: number): number {
  return (side >> 1) * side + (side >> 1);
}

function stream(seed: number): () => number {
  let s = seed;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 2 ** 32;
  };
}

/** The open edges that leave a cell: column shift, row shift, seconds. */
export function edgesFrom(surface: CostSurface, cell: number): { to: number; seconds: number }[] {
  const { columns, rows } = surface;
  const column = cell % columns;
  const row = (cell - column) / columns;
  const edges: { to: number; seconds: number }[] = [];
  for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 1); r++) {
    for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 1); c++) {
      const to = r * columns + c;
      if (to === cell) continue;
      const seconds = edgeSeconds(surface, cell, to);
      if (seconds < Infinity) edges.push({ to, seconds });
    }
  }
  return edges;
}

/** What the Python peers read: `shape.json`, `elevation.f32`, `factor.f32`, `pace.f32`. */
export function writeSurface(surface: CostSurface, folder: string, source: number): void {
  const { columns, rows, cell } = surface;
  const shape = { columns, rows, cell, source, paceReach: PACE_REACH, paceSteps: PACE_STEPS };
  writeFileSync(join(folder, 'shape.json'), JSON.stringify(shape));
  writeFileSync(join(folder, 'elevation.f32'), surface.elevation);
  writeFileSync(join(folder, 'factor.f32'), surface.factor);
  writeFileSync(join(folder, 'pace.f32'), surface.pace);
}

/** Sum of what is finite. */
export function total(field: Float32Array): number {
  let sum = 0;
  for (const seconds of field) if (seconds < Infinity) sum += seconds;
  return sum;
}
