import { describe, expect, it } from 'vitest';
import type { Raster } from '../../src/grid/raster.ts';
import { distance, lineLength, type Point } from '../../src/math/plane.ts';
import { type Landform, landforms } from '../../src/terrain/landforms.ts';
import { decoded, fixture, heights, rasterOf } from './heights.ts';

function ground(
  columns: number,
  rows: number,
  cell: number,
  height: (east: number, north: number) => number,
): Raster {
  return heights(
    Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (_, c) => height((c + 0.5) * cell, (rows - r - 0.5) * cell)),
    ),
    cell,
  );
}

const of = (found: readonly Landform[], kind: Landform['kind']) => found.filter((f) => f.kind === kind);
const bump = (east: number, north: number, e: number, n: number, high: number, wide: number) =>
  high * Math.exp(-((east - e) ** 2 + (north - n) ** 2) / (2 * wide * wide));

describe('knolls and cols', () => {
  // two bumps 600 m apart on a plain: the lower one's prominence is its height over the saddle between
  const two = ground(
    120,
    80,
    10,
    (e, n) => 100 + bump(e, n, 305, 405, 40, 140) + bump(e, n, 905, 405, 25, 140),
  );

  it('two bumps are two knolls with a col between them', () => {
    const found = landforms(two);
    const knolls = of(found, 'knoll');
    expect(knolls.map((k) => k.at)).toEqual([
      [305, 405],
      [905, 405],
    ]);
    const [col] = of(found, 'col');
    expect(of(found, 'col').length).toBe(1);
    const [east, north] = col!.at as Point;
    expect(Math.abs(north - 405)).toBeLessThan(11);
    expect(east).toBeGreaterThan(500);
    expect(east).toBeLessThan(750);
    const saddle = Math.min(...Array.from({ length: 60 }, (_, i) => two.data[40 * 120 + 30 + i]!));
    expect(knolls[1]!.reliefMetres).toBeCloseTo(125 - saddle, 1);
    expect(col!.reliefMetres).toBe(knolls[1]!.reliefMetres);
  });

  it('what rises less than asked for is none', () => {
    expect(of(landforms(two, 26), 'knoll').length).toBe(1);
    expect(of(landforms(two, 26), 'col')).toEqual([]);
  });

  it('a wide top is a flat summit', () => {
    const table = ground(80, 80, 10, (e, n) => 100 + Math.min(30, bump(e, n, 400, 400, 60, 120)));
    expect(of(landforms(table), 'flat-summit').length).toBe(1);
    expect(of(landforms(table), 'knoll')).toEqual([]);
  });

  it('a summit on the edge of the ground, or of a void, may go on beyond', () => {
    const rising = ground(60, 60, 10, (e) => e / 10);
    expect(landforms(rising).filter((f) => f.kind === 'knoll' || f.kind === 'flat-summit')).toEqual([]);
    const holed = { ...two, data: two.data.slice() };
    holed.data[39 * 120 + 31] = Number.NaN;
    expect(of(landforms(holed), 'knoll').length).toBe(1);
  });

  // scikit-image: summits by their dynamic (tests/fixtures/terrain/peaks.py)
  it.each([5, 15])('the summits of %s m on real ground are those of a reconstruction', async (least) => {
    const cut = rasterOf(await decoded('ny21-cut.tif'));
    const peaks = (
      JSON.parse(new TextDecoder().decode(fixture('ny21-peaks.json'))) as Record<string, [number, number][]>
    )[least]!;
    // a top that reaches the edge is none of ours
    const inner = (r: number, c: number) => r > 1 && c > 1 && r < 98 && c < 98;
    const inside = peaks.filter(([r, c]) => inner(r, c));
    const found = landforms(cut, least).filter((f) => f.kind === 'knoll' || f.kind === 'flat-summit');
    const cells = found
      .map(({ at }) => [(516975 - (at as Point)[1]) / 50, ((at as Point)[0] - 323025) / 50] as const)
      .filter(([r, c]) => inner(r, c))
      .map(([r, c]) => `${r},${c}`);
    expect(cells.sort()).toEqual(inside.map(([r, c]) => `${r},${c}`).sort());
    expect(cells.length).toBeGreaterThan(5);
  });
});

describe('spurs and re-entrants', () => {
  // a cone with four ribs and four gullies between them
  const turn = (e: number, n: number) => Math.atan2(n - 1000, e - 1000);
  const cone = ground(200, 200, 10, (e, n) => {
    const away = Math.sqrt((e - 1000) ** 2 + (n - 1000) ** 2);
    return 600 - 0.3 * away + Math.min(40, away / 8) * Math.cos(4 * turn(e, n));
  });
  const found = landforms(cone).filter(
    (f) => distance(f.at as Point, [1000, 1000]) < 900 && f.kind !== 'break-of-slope',
  );

  it('ribs are spurs, gullies are re-entrants', () => {
    for (const { kind, at } of found) {
      if (kind !== 'spur' && kind !== 're-entrant') continue;
      const wave = Math.cos(4 * turn(...(at as [number, number])));
      expect(kind === 'spur' ? wave : -wave).toBeGreaterThan(0.6);
    }
    for (const kind of ['spur', 're-entrant'] as const) {
      const quarters = new Set(
        of(found, kind).map(({ at }) => Math.round((turn(...(at as [number, number])) * 4) / Math.PI)),
      );
      expect(quarters.size).toBeGreaterThanOrEqual(4);
    }
  });

  it('of a kind none is within 240 m of another', () => {
    for (const kind of ['spur', 're-entrant'] as const) {
      const places = of(found, kind).map((f) => f.at as Point);
      for (const a of places)
        for (const b of places) if (a !== b) expect(distance(a, b)).toBeGreaterThanOrEqual(240);
    }
  });

  it('a plane and a level have none', () => {
    expect(landforms(ground(60, 60, 10, (e, n) => 0.3 * e + 0.2 * n))).toEqual([]);
    expect(landforms(ground(60, 60, 10, () => 200))).toEqual([]);
  });
});

describe('breaks of slope', () => {
  it('the edge of a plateau is a line along it', () => {
    // level north of n = 500, falling south at .6
    const edge = ground(100, 100, 10, (e, n) => 300 + Math.min(0, n - 500) * 0.6 + 0.001 * e);
    const breaks = of(landforms(edge), 'break-of-slope');
    expect(breaks.length).toBe(1);
    const line = breaks[0]!.at as readonly Point[];
    expect(lineLength(line)).toBeGreaterThan(700);
    for (const [, north] of line) expect(Math.abs(north - 500)).toBeLessThan(16);
    // the edge lies between two rows of centres: half a cell of the reach goes
    expect(breaks[0]!.reliefMetres).toBeCloseTo(0.6 * 55, 0);
  });

  it('a gentle bend is none', () => {
    expect(
      of(landforms(ground(100, 100, 10, (_, n) => 300 + Math.min(0, n - 500) * 0.1)), 'break-of-slope'),
    ).toEqual([]);
  });
});
