import proj4 from 'proj4';
import list from 'proj4-list';
import { describe, expect, it } from 'vitest';
import { crsEntry, knownCodes } from '../../src/terrain/epsg.ts';
import { convergenceDegrees, fromLonLat, toLonLat, utmFor, utmZone } from '../../src/terrain/projection.ts';

const OSGB36 = '+proj=longlat +datum=OSGB36 +no_defs';

describe('British National Grid', () => {
  it("Ordnance Survey's worked example (A guide to coordinate systems in Great Britain, Annexe C1)", () => {
    const osgb: [number, number] = [1 + 43 / 60 + 4.5177 / 3600, 52 + 39 / 60 + 27.2531 / 3600];
    const [east, north] = fromLonLat('EPSG:27700', proj4(OSGB36, 'EPSG:4326', osgb) as [number, number]);
    expect(east).toBeCloseTo(651409.903, 2);
    expect(north).toBeCloseTo(313177.27, 2);
  });

  // transverse Mercator with the parameters of the OS guide; figures computed with proj4 by finite difference
  it.each([
    [54.5, -3.2, -0.9769871203, 322295.5155, 512307.8523],
    [57, -5, -2.516697773, 217807.9134, 793853.9575],
    [50.5, -4, -1.543504851, 258176.9313, 68665.6816],
    [53, 0, 1.597507704, 534200.3249, 346647.2627],
    [55, -2, 0, 400000, 567277.6142],
  ])('convergence at %s %s is %s°', (_lat, _lon, expected, east, north) => {
    expect(Math.abs(convergenceDegrees('EPSG:27700', [east, north]) - expected)).toBeLessThan(1e-5);
  });
});

describe('UTM', () => {
  // E, N: geodesy's tests of UTM and MGRS; convergence computed with that package (Krüger series)
  it.each([
    ['Eiffel tower', 48.8583, 2.2945, 'EPSG:32631', 448251.898, 5411943.794, -0.531313019],
    ['Sydney opera house', -33.857, 151.215, 'EPSG:32756', 334873.199, 6252266.092, 0.994687856],
    ['White house', 38.8977, -77.0365, 'EPSG:32618', 323394.296, 4307395.634, -1.279113399],
  ])('%s', (_name, lat, lon, code, east, north, convergence) => {
    expect(utmFor([lon, lat])).toBe(code);
    const at = fromLonLat(code, [lon, lat]);
    expect(Math.abs(at[0] - east)).toBeLessThan(0.001);
    expect(Math.abs(at[1] - north)).toBeLessThan(0.001);
    expect(Math.abs(convergenceDegrees(code, [east, north]) - convergence)).toBeLessThan(2e-8);
  });

  it('zone exceptions of Norway and Svalbard', () => {
    const points = [
      [60, 4],
      [75, 8],
      [75, 10],
      [75, 20],
      [75, 22],
      [75, 32],
      [75, 34],
    ] as const;
    expect(points.map(([lat, lon]) => utmZone([lon, lat]))).toEqual([32, 31, 33, 33, 35, 35, 37]);
    expect([utmZone([-180, 0]), utmZone([179.99, 0]), utmZone([180, 0]), utmZone([0, 0])]).toEqual([
      1, 60, 1, 31,
    ]);
  });
});

describe('the list of coordinate systems', () => {
  const codes = knownCodes().filter((code) => list[code] !== undefined);

  it('is held nearly whole by the outside list', () => {
    expect(knownCodes().filter((code) => list[code] === undefined)).toEqual([]);
    expect(codes.length).toBeGreaterThan(190);
  });

  // 5 m: systems differ in which of several published datum shifts they take; a wrong projection is off by kilometres
  it('agrees with proj4-list all over each area of use', () => {
    for (const code of codes) {
      const entry = crsEntry(code)!;
      const outside = proj4('EPSG:4326', list[code]![1]);
      const [west, south, east, north] = entry.area;
      for (const [fx, fy] of [
        [0.4, 0.4],
        [0.6, 0.7],
        [0.5, 0.2],
      ] as const) {
        const lonLat: [number, number] = [west + (east - west) * fx, south + (north - south) * fy];
        const want = outside.forward(lonLat);
        const got = fromLonLat(code, lonLat);
        const unit = entry.use === 'degrees' ? 1e-4 : 5;
        expect(Math.abs(got[0] - want[0]!), code).toBeLessThan(unit + 0.001);
        expect(Math.abs(got[1] - want[1]!), code).toBeLessThan(unit + 0.001);
        if (entry.use === 'degrees') continue;
        const back = toLonLat(code, got);
        expect(Math.abs(((back[0] - lonLat[0] + 540) % 360) - 180), code).toBeLessThan(1e-7);
        expect(Math.abs(back[1] - lonLat[1]), code).toBeLessThan(1e-7);
      }
    }
  });
});
