import { type CostSurface, PACE_REACH, PACE_STEPS } from '../../src/cost/surface.ts';
import { paceTable } from './text-map.ts';

/** Seconds per metre on a signed gradient. */
export type PaceOf = (gradient: number) => number;

/** A linear congruential generator: tests need a repeatable stream, nothing more. */
export function stream(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 2 ** 32;
  };
}

/** A plane that rises by `east` per metre eastwards and by `south` per metre southwards, 10 m cells. */
export function plane(side: number, east: number, south: number, pace: PaceOf): CostSurface {
  const cells = side * side;
  return {
    crs: 'EPSG:27700',
    west: 0,
    north: 0,
    cell: 10,
    columns: side,
    rows: side,
    elevation: Float32Array.from(
      { length: cells },
      (_, i) => 10 * (east * (i % side) + south * Math.floor(i / side)),
    ),
    factor: new Float32Array(cells).fill(1),
    pace: paceTable(pace),
  };
}

/** Seeded hills with six kinds of ground and a few closed cells; 10 m cells, never closed in the first two rows. */
export function hills(side: number, seed = 1): CostSurface {
  const next = stream(seed);
  const surface = plane(side, 0, 0, (g) => 1.2 * Math.exp(3.5 * Math.abs(g + 0.05)));
  const waves = Array.from(
    { length: 12 },
    () => [next() * 0.3, next() * 0.3, next() * 6, next() * 8] as const,
  );
  for (let i = 0; i < side * side; i++) {
    const [c, r] = [i % side, Math.floor(i / side)];
    for (const [a, b, phase, metres] of waves) {
      surface.elevation[i] = surface.elevation[i]! + metres * Math.sin(a * c + b * r + phase);
    }
    surface.factor[i] = [0.8, 1, 1.2, 1.5, 2, 3][
      Math.floor(3 + 2.9 * Math.sin(c * 0.2) * Math.sin(r * 0.17))
    ]!;
    if (r > 1 && Math.sin(c * 0.9) * Math.sin(r * 0.7) > 0.93) surface.factor[i] = Infinity;
  }
  return surface;
}

/** The pace table read with linear interpolation, clamped at its ends. */
export function tableReading(table: Float32Array): PaceOf {
  return (gradient) => {
    const y = Math.min(Math.max((gradient + PACE_REACH) * PACE_STEPS, 0), table.length - 1);
    const k = Math.min(Math.floor(y), table.length - 2);
    return table[k]! + (table[k + 1]! - table[k]!) * (y - k);
  };
}
