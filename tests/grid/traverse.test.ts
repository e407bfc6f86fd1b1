import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellAt, type Georeference } from '../../src/grid/raster.ts';
import { traverse } from '../../src/grid/traverse.ts';
import { length } from '../../src/math/plane.ts';

const grid: Georeference = { crs: 'EPSG:32633', west: 100, north: 500, cell: 10, columns: 12, rows: 9 };

function walk(ax: number, ay: number, bx: number, by: number): [number, number][] {
  const seen: [number, number][] = [];
  traverse(grid, ax, ay, bx, by, (cell, metres) => seen.push([cell, metres]));
  return seen;
}

describe('the cells that a segment crosses', () => {
  it('gives the metres in each cell of a level segment', () => {
    expect(walk(105, 495, 132, 495)).toEqual([
      [0, expect.closeTo(5, 9)],
      [1, expect.closeTo(10, 9)],
      [2, expect.closeTo(10, 9)],
      [3, expect.closeTo(2, 9)],
    ]);
  });

  it('passes a corner through one of its neighbours with 0 m', () => {
    const seen = walk(100, 500, 120, 480);
    expect(seen.map(([cell]) => cell)).toEqual([0, 1, 13, 14, 26].slice(0, seen.length));
    expect(seen.filter(([, metres]) => metres > 0).map(([cell]) => cell)).toEqual([0, 13]);
  });

  it('visits the cell of a point once and nothing off the map', () => {
    expect(walk(115, 485, 115, 485)).toEqual([[13, 0]]);
    expect(walk(0, 0, 50, 900)).toEqual([]);
    expect(walk(99, 495, 99, 495)).toEqual([]);
  });

  it('agrees with dense sampling, and its metres add up to the part on the map', () => {
    const metre = fc.double({ min: 60, max: 260, noNaN: true });
    const north = fc.double({ min: 380, max: 540, noNaN: true });
    fc.assert(
      fc.property(metre, north, metre, north, (ax, ay, bx, by) => {
        const seen = new Map(walk(ax, ay, bx, by));
        const samples = 4000;
        const step = length(bx - ax, by - ay) / samples;
        const sampled = new Map<number, number>();
        for (let i = 0; i < samples; i++) {
          const t = (i + 0.5) / samples;
          const cell = cellAt(grid, ax + (bx - ax) * t, ay + (by - ay) * t);
          if (cell >= 0) sampled.set(cell, (sampled.get(cell) ?? 0) + step);
        }
        for (const [cell, metres] of sampled)
          expect(Math.abs((seen.get(cell) ?? 0) - metres)).toBeLessThan(3 * step);
        for (const [cell, metres] of seen) if (!sampled.has(cell)) expect(metres).toBeLessThan(3 * step);
      }),
      { seed: 7, numRuns: 150 },
    );
  });

  it('joins the cells by their sides', () => {
    const metre = fc.integer({ min: 8, max: 24 }).map((n) => n * 10);
    fc.assert(
      fc.property(metre, metre, metre, metre, (ax, ay, bx, by) => {
        const cells = walk(ax, ay + 300, bx, by + 300).map(([cell]) => cell);
        for (let i = 1; i < cells.length; i++) {
          const dc = Math.abs((cells[i]! % 12) - (cells[i - 1]! % 12));
          const dr = Math.abs(Math.floor(cells[i]! / 12) - Math.floor(cells[i - 1]! / 12));
          expect(dc + dr).toBe(1);
        }
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});
