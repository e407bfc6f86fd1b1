import { booleanPointInPolygon, polygon } from '@turf/turf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paintArea, paintLine } from '../../src/grid/paint.ts';
import { centreEast, centreNorth, type Georeference } from '../../src/grid/raster.ts';
import type { Point } from '../../src/math/plane.ts';

const grid: Georeference = { crs: 'EPSG:32633', west: 0, north: 80, cell: 10, columns: 10, rows: 8 };

function drawn(paint: (visit: (cell: number) => void) => void): string[] {
  const cells = new Uint8Array(grid.columns * grid.rows);
  paint((cell) => {
    cells[cell] = 1;
  });
  return Array.from({ length: grid.rows }, (_, r) =>
    Array.from(cells.subarray(r * grid.columns, (r + 1) * grid.columns), (v) => (v === 1 ? '#' : '.')).join(
      '',
    ),
  );
}

const square = (w: number, s: number, e: number, n: number): Point[] => [
  [w, s],
  [e, s],
  [e, n],
  [w, n],
];

describe('painting', () => {
  it('an area with a hole, by cell centres', () => {
    expect(
      drawn((visit) => paintArea(grid, [square(10, 10, 80, 70), square(30, 30, 60, 50)], visit)),
    ).toEqual([
      '..........',
      '.#######..',
      '.#######..',
      '.##...##..',
      '.##...##..',
      '.#######..',
      '.#######..',
      '..........',
    ]);
  });

  it('a line without a diagonal gap, cut at the edge of the map', () => {
    expect(
      drawn((visit) =>
        paintLine(
          grid,
          [
            [-20, 75],
            [25, 75],
            [65, 35],
            [65, -50],
          ],
          visit,
        ),
      ),
    ).toEqual([
      '####......',
      '...##.....',
      '....##....',
      '.....##...',
      '......#...',
      '......#...',
      '......#...',
      '......#...',
    ]);
  });

  it('two areas that share an edge share no cell and leave none out', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 1, max: 99 }), (a, b) => {
        const counts = new Uint8Array(80);
        const count = (cell: number) => {
          counts[cell]!++;
        };
        paintArea(
          grid,
          [
            [
              [0, 0],
              [a, 0],
              [b, 80],
              [0, 80],
            ],
          ],
          count,
        );
        paintArea(
          grid,
          [
            [
              [a, 0],
              [100, 0],
              [100, 80],
              [b, 80],
            ],
          ],
          count,
        );
        expect(counts.every((n) => n === 1)).toBe(true);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  it('agrees with turf on which centres lie inside random polygons', () => {
    const corner = fc.tuple(
      fc.double({ min: -30, max: 130, noNaN: true }),
      fc.double({ min: -30, max: 110, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(corner, { minLength: 3, maxLength: 9 }), (ring) => {
        const painted = new Set<number>();
        paintArea(grid, [ring], (cell) => painted.add(cell));
        const shape = polygon([[...ring, ring[0]!]]);
        for (let cell = 0; cell < 80; cell++) {
          const at = [centreEast(grid, cell % 10), centreNorth(grid, Math.floor(cell / 10))];
          expect(painted.has(cell)).toBe(booleanPointInPolygon(at, shape));
        }
      }),
      { seed: 11, numRuns: 200 },
    );
  });
});
