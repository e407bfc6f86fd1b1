import { beforeAll, describe, expect, it } from 'vitest';
import type { Raster } from '../../src/grid/raster.ts';
import { drainage } from '../../src/terrain/drainage.ts';
import { aspectDegrees, gradient, slopeDegrees, slopeTangent } from '../../src/terrain/gradient.ts';
import { dropMetres, horizonMetres, sees } from '../../src/terrain/line-of-sight.ts';
import { wetnessIndex } from '../../src/terrain/relief.ts';
import { viewshed } from '../../src/terrain/viewshed.ts';
import { decoded, heights, rasterOf } from '../terrain/heights.ts';

describe('Horn (1981), Hill shading and the reflectance map, Proc IEEE 69(1):14-47', () => {
  it.each([
    {
      // plane rising .1 per metre east, .2 north
      window: [
        [20, 21, 22],
        [18, 19, 20],
        [16, 17, 18],
      ],
      cell: 10,
      eastward: 0.1,
      northward: 0.2,
      slope: 12.60438265,
      percent: 22.36067977,
      aspect: 206.5650512,
    },
    {
      window: [
        [200, 210, 220],
        [210, 225, 225],
        [205, 210, 220],
      ],
      cell: 30,
      eastward: 0.2708333333,
      northward: -0.02083333333,
      slope: 15.19676901,
      percent: 27.16334336,
      aspect: 274.3987054,
    },
  ])('slope $slope°, aspect $aspect°', ({ window, cell, ...expected }) => {
    const { eastward, northward } = gradient(heights(window, cell));
    const [e, n] = [eastward.data[4]!, northward.data[4]!];
    expect(e).toBeCloseTo(expected.eastward, 6);
    expect(n).toBeCloseTo(expected.northward, 6);
    expect(slopeDegrees(expected.eastward, expected.northward)).toBeCloseTo(expected.slope, 6);
    expect(100 * slopeTangent(expected.eastward, expected.northward)).toBeCloseTo(expected.percent, 6);
    expect(aspectDegrees(expected.eastward, expected.northward)).toBeCloseTo(expected.aspect, 6);
  });
});

describe('Barnes, Lehman & Mulla (2014), Priority-flood', () => {
  it('a bowl rises to the level of its outlet', () => {
    const bowl = heights([
      [9, 9, 9, 9, 9],
      [9, 3, 4, 3, 9],
      [9, 4, 1, 4, 6],
      [9, 3, 4, 3, 9],
      [9, 9, 9, 9, 9],
    ]);
    const { filled } = drainage(bowl);
    expect(Array.from(filled.data)).toEqual(
      [
        [9, 9, 9, 9, 9],
        [9, 6, 6, 6, 9],
        [9, 6, 6, 6, 6],
        [9, 6, 6, 6, 9],
        [9, 9, 9, 9, 9],
      ].flat(),
    );
    const depths = filled.data.map((z, i) => z - bowl.data[i]!);
    expect(Math.max(...depths)).toBe(5);
    expect(depths.reduce((sum, d) => sum + d, 0)).toBe(25);
  });
});

describe('Beven & Kirkby (1979), topographic wetness index', () => {
  it.each([
    [1000, 2, 10.26242879],
    [10000, 1, 13.25846579],
  ])('ln(%s m²/m / tan %s°)', (area, degrees, expected) => {
    expect(wetnessIndex(area, Math.tan((degrees * Math.PI) / 180))).toBeCloseTo(expected, 8);
  });
});

describe('curvature and refraction, geodetic surveying texts', () => {
  it.each([
    [500, 0.01962015382, 0.01706953383, 0.0168172747],
    [1000, 0.07848061529, 0.0682781353, 0.06726909882],
    [2000, 0.3139224612, 0.2731125412, 0.2690763953],
    [20000, 31.39224612, 27.31125412, 26.90763953],
  ])('drop at %s m', (distance, none, gauss, seventh) => {
    expect(dropMetres(distance, 0)).toBeCloseTo(none, 8);
    expect(dropMetres(distance, 0.13)).toBeCloseTo(gauss, 8);
    expect(dropMetres(distance)).toBeCloseTo(seventh, 8);
  });

  it('horizon', () => {
    expect(Math.abs(horizonMetres(100, 0.13) - 38270.06273)).toBeLessThan(0.0001);
    expect(Math.abs(horizonMetres(1000, 0.13) - 121020.5644)).toBeLessThan(0.0001);
  });

  // checks.json C.horizon.100 on a level raster: the ground itself is the hill that hides
  it('a line of sight over level ground ends at the horizon', () => {
    const sea = heights([Array.from({ length: 500 }, () => 0), Array.from({ length: 500 }, () => 0)], 100);
    const shore = (metres: number) => sees(sea, 50, 100, 100, 50 + metres, 100, 0, 0.13);
    expect(shore(38_000)).toBe(true);
    expect(shore(38_600)).toBe(false);
  });
});

describe('GDAL 3.6.2 and scikit-image on a cut of OS Terrain 50 (commands in tests/fixtures/terrain/make.sh)', () => {
  let ground: Raster;
  beforeAll(async () => {
    ground = rasterOf(await decoded('ny21-cut.tif'));
  });

  it('gdaldem slope and aspect', async () => {
    const slope = rasterOf(await decoded('ny21-slope.tif')).data;
    const percent = rasterOf(await decoded('ny21-slope-percent.tif')).data;
    const aspect = rasterOf(await decoded('ny21-aspect.tif')).data;
    const { eastward, northward } = gradient(ground);
    let compared = 0;
    for (let i = 0; i < slope.length; i++) {
      const [e, n] = [eastward.data[i]!, northward.data[i]!];
      expect(Number.isNaN(e)).toBe(Number.isNaN(slope[i]!));
      if (Number.isNaN(e)) continue;
      compared++;
      expect(Math.abs(slopeDegrees(e, n) - slope[i]!)).toBeLessThan(1e-4);
      expect(Math.abs(100 * slopeTangent(e, n) - percent[i]!)).toBeLessThan(1e-3);
      if (slope[i]! > 1)
        expect(Math.abs(((aspectDegrees(e, n) - aspect[i]! + 540) % 360) - 180)).toBeLessThan(0.01);
    }
    expect(compared).toBe(98 * 98);
  });

  it('hollows filled by reconstruction, to 1 cm', async () => {
    const expected = rasterOf(await decoded('ny21-filled.tif')).data;
    const { filled } = drainage(ground);
    let raised = 0;
    for (let i = 0; i < expected.length; i++) {
      expect(Math.abs(filled.data[i]! - expected[i]!)).toBeLessThan(0.0101);
      if (filled.data[i]! > ground.data[i]! + 0.02) raised++;
    }
    expect(raised).toBeGreaterThan(100);
  });

  it.each([
    ['ny21-viewshed.tif', 325525, 514475, 1.7, 0, 2200, 1000],
    ['ny21-viewshed-whole.tif', 325525, 514475, 2, 1.5, Number.POSITIVE_INFINITY, 1000],
  ])('gdal_viewshed: %s, the same cells to 99.9 %%', async (name, east, north, eye, target, range, least) => {
    const theirs = rasterOf(await decoded(name));
    const ours = viewshed(ground, east, north, eye, target, range, 1 - 0.85714);
    let agree = 0;
    let seen = 0;
    const left = Math.round((theirs.west - ground.west) / 50);
    const top = Math.round((ground.north - theirs.north) / 50);
    for (let r = 0; r < theirs.rows; r++) {
      for (let c = 0; c < theirs.columns; c++) {
        const a = ours[(r + top) * ground.columns + c + left] === 1;
        const b = theirs.data[r * theirs.columns + c] === 255;
        if (a === b) agree++;
        if (b) seen++;
      }
    }
    expect(seen).toBeGreaterThan(least);
    expect(agree / theirs.data.length).toBeGreaterThanOrEqual(0.999);
    expect(ours.reduce((sum, v) => sum + v, 0)).toBeLessThanOrEqual(seen + 10);
  });

  // GDAL 3.6.2 takes the ground under the eye for a horizon of the first ring north, south and aslant: from a summit it hides what
  // lies below. Where we see more, a ray that is marched over the ground must say the same as we do.
  it('gdal_viewshed from a summit: all that it sees, and what rays confirm beside it', async () => {
    const theirs = rasterOf(await decoded('ny21-viewshed-summit.tif'));
    const ours = viewshed(ground, 323425, 516225, 2, 1.5, Number.POSITIVE_INFINITY);
    let more = 0;
    let confirmed = 0;
    for (let i = 0; i < ours.length; i++) {
      if (theirs.data[i] === 255) expect(ours[i]).toBe(1);
      else if (ours[i] === 1) {
        more++;
        if (sees(ground, 323425, 516225, 2, 323025 + 50 * (i % 100), 516975 - 50 * Math.floor(i / 100), 1.5))
          confirmed++;
      }
    }
    expect(more).toBeLessThan(1100);
    expect(confirmed / more).toBeGreaterThan(0.9);
  });

  it('a single line of sight agrees with the viewshed nearly everywhere', () => {
    const area = viewshed(ground, 325525, 514475, 1.7, 0, Number.POSITIVE_INFINITY);
    let agree = 0;
    for (let r = 0; r < 100; r++) {
      for (let c = 0; c < 100; c++) {
        const line = sees(ground, 325525, 514475, 1.7, 323025 + 50 * c, 516975 - 50 * r, 0);
        if (line === (area[r * 100 + c] === 1)) agree++;
      }
    }
    // the sweep interpolates horizons, the ray the ground: they part on grazing cells only
    expect(agree).toBeGreaterThan(9500);
  });
});
