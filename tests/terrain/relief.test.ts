import { describe, expect, it } from 'vitest';
import type { Raster } from '../../src/grid/raster.ts';
import { drainage, LEAVES } from '../../src/terrain/drainage.ts';
import { gradient } from '../../src/terrain/gradient.ts';
import { deriveRelief, wetnessIndex } from '../../src/terrain/relief.ts';
import { heights } from './heights.ts';

const STEPS = [
  [0, -1],
  [1, -1],
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
  [-1, 0],
  [-1, -1],
] as const;

/** Text map of flow directions. */
function arrows(receiver: Raster<Uint8Array>): string[] {
  const signs = '↑↗→↘↓↙←↖';
  return Array.from({ length: receiver.rows }, (_, r) =>
    Array.from(
      { length: receiver.columns },
      (_, c) => signs[receiver.data[r * receiver.columns + c]!] ?? '·',
    ).join(''),
  );
}

function hills(columns: number, rows: number): Raster {
  return heights(
    Array.from({ length: rows }, (_, r) =>
      Array.from(
        { length: columns },
        (_, c) => 100 + 30 * Math.sin(c / 5) * Math.cos(r / 7) + ((c * 7 + r * 13) % 11),
      ),
    ),
    10,
  );
}

describe('drainage', () => {
  it('runs down a valley and out at its mouth', () => {
    const { receiver, flow } = drainage(
      heights([
        [9, 9, 9, 9, 9],
        [9, 7, 6, 7, 9],
        [9, 6, 4, 6, 9],
        [9, 5, 3, 5, 9],
        [9, 9, 1, 9, 9],
      ]),
    );
    expect(arrows(receiver)).toEqual(['↘↘↓↙↙', '↘↘↓↙↙', '→↘↓↙←', '→↘↓↙←', '↗→·←↖']);
    expect(flow.data[4 * 5 + 2]).toBe(25);
  });

  it('leaves a hollow by its lowest rim, across the flat the short way', () => {
    const { receiver, filled } = drainage(
      heights([
        [9, 9, 9, 9, 9, 9],
        [9, 3, 3, 3, 3, 9],
        [9, 3, 1, 2, 3, 5],
        [9, 3, 3, 3, 3, 9],
        [9, 9, 9, 9, 9, 9],
      ]),
    );
    expect(Array.from(filled.data.subarray(12, 18))).toEqual([9, 5, 5, 5, 5, 5]);
    expect(arrows(receiver)[2]!.slice(1)).toBe('→→→→·');
  });

  it('treats a missing cell as a way out', () => {
    const { filled, flow } = drainage(
      heights([
        [9, 9, 9, 9, 9],
        [9, 5, 5, 5, 9],
        [9, 5, Number.NaN, 5, 9],
        [9, 5, 5, 5, 9],
        [9, 9, 9, 9, 9],
      ]),
    );
    expect(filled.data[6]).toBe(5);
    expect(filled.data[12]).toBeNaN();
    expect(flow.data[12]).toBe(0);
  });

  it('loses no cell, has no circle, and goes the steepest way down the filled surface', () => {
    const ground = hills(60, 45);
    const { filled, receiver, flow } = drainage(ground);
    const given = new Float64Array(flow.data.length).fill(1);
    let leaving = 0;
    for (let i = 0; i < flow.data.length; i++) {
      const c = i % 60;
      const r = Math.floor(i / 60);
      const drops = STEPS.map(([dc, dr]) => {
        const x = c + dc;
        const y = r + dr;
        if (x < 0 || y < 0 || x >= 60 || y >= 45) return Number.NEGATIVE_INFINITY;
        return (filled.data[i]! - filled.data[y * 60 + x]!) / Math.sqrt(dc * dc + dr * dr);
      });
      const k = receiver.data[i]!;
      if (k === LEAVES) {
        leaving += flow.data[i]!;
        expect(Math.max(...drops)).toBeLessThanOrEqual(0.01);
        continue;
      }
      const to = (r + STEPS[k]![1]) * 60 + c + STEPS[k]![0];
      given[to]! += flow.data[i]!;
      expect(drops[k]!).toBeGreaterThanOrEqual(Math.max(...drops) - 0.01);
      expect(filled.data[to]!).toBeLessThanOrEqual(filled.data[i]!);
    }
    expect(leaving).toBe(60 * 45);
    expect(Array.from(given)).toEqual(Array.from(flow.data));
  });

  it('has nothing to say of a raster without heights', () => {
    const { flow } = drainage(heights([[Number.NaN, Number.NaN]]));
    expect(Array.from(flow.data)).toEqual([0, 0]);
  });
});

describe('relief', () => {
  it('turns with the ground', () => {
    const ground = hills(30, 30);
    const turned: Raster = {
      ...ground,
      data: ground.data.map((_, i) => ground.data[(i % 30) * 30 + 29 - Math.floor(i / 30)]!),
    };
    const a = gradient(ground);
    const b = gradient(turned);
    for (let r = 1; r < 29; r++) {
      for (let c = 1; c < 29; c++) {
        // a quarter turn to the left: what faced east faces north
        const from = c * 30 + 29 - r;
        expect(b.northward.data[r * 30 + c]!).toBeCloseTo(a.eastward.data[from]!, 5);
        expect(b.eastward.data[r * 30 + c]!).toBeCloseTo(-a.northward.data[from]!, 5);
      }
    }
  });

  it('has no gradient on the rim and round a missing cell', () => {
    const ground = hills(9, 9);
    ground.data[40] = Number.NaN;
    const { eastward, northward } = gradient(ground);
    for (let i = 0; i < 81; i++) {
      const c = i % 9;
      const r = Math.floor(i / 9);
      const expected =
        c === 0 || r === 0 || c === 8 || r === 8 || (Math.abs(c - 4) < 2 && Math.abs(r - 4) < 2);
      expect([Number.isNaN(eastward.data[i]), Number.isNaN(northward.data[i])]).toEqual([expected, expected]);
    }
  });

  it('is wetter in a valley than on its sides', () => {
    const valley = heights(
      Array.from({ length: 40 }, (_, r) =>
        Array.from({ length: 21 }, (_, c) => 2 * Math.abs(c - 10) + (40 - r) * 0.5),
      ),
      10,
    );
    const { wetness, flow } = deriveRelief(valley);
    const middle = 35 * 21 + 10;
    expect(wetness.data[middle]!).toBeGreaterThan(wetness.data[middle + 6]! + 3);
    // the index as defined, from the upslope area of the raster: 10 m contour, 100 m² cells
    expect(wetness.data[middle]!).toBeCloseTo(wetnessIndex(flow.data[middle]! * 10, 0.05), 4);
  });
});
