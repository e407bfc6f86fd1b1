import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { parseGridReference, printGridReference } from '../../src/terrain/grid-reference.ts';
import { convergenceDegrees, fromLonLat, groundCrs, toLonLat, utmFor } from '../../src/terrain/projection.ts';

describe('projection at the door', () => {
  it.each([
    ['a place in another country', () => fromLonLat('EPSG:27700', [18, 46])],
    ['not a number', () => fromLonLat('EPSG:32633', [Number.NaN, 46])],
    ['endless', () => toLonLat('EPSG:32633', [Number.POSITIVE_INFINITY, 0])],
    ['metres far off the map', () => toLonLat('EPSG:27700', [9e9, 9e9])],
    ['convergence off the map', () => convergenceDegrees('EPSG:2056', [0, 0])],
    ['the pole', () => utmFor([0, 89])],
    ['an unknown code', () => toLonLat('EPSG:99999', [0, 0])],
    ['a code that is none', () => toLonLat('__proto__', [0, 0])],
    ['Mercator metres', () => groundCrs('EPSG:3857')],
    ['degrees', () => groundCrs('EPSG:4326')],
  ])('refuses %s with one message', (_name, call) => {
    expect(call).toThrow(UserError);
  });

  it('enters on the 1/1024 m lattice', () => {
    const [east, north] = fromLonLat('EPSG:27700', [-3.2, 54.5]);
    expect(east * 1024).toBe(Math.round(east * 1024));
    expect(north * 1024).toBe(Math.round(north * 1024));
  });
});

describe('grid references', () => {
  it.each([
    ['NY 213 105', 'EPSG:27700', [321300, 510500]],
    ['ny213105', 'EPSG:27700', [321300, 510500]],
    ['TG 51409 13177', 'EPSG:27700', [651409, 313177]],
    ['R 8134 8352', 'EPSG:29902', [181340, 183520]],
    ['31U DQ 48251 11943', 'EPSG:32631', [448251, 5411943]],
    ['31UDQ482119', 'EPSG:32631', [448200, 5411900]],
    ['31 N 448251 5411943', 'EPSG:32631', [448251, 5411943]],
    ['431200 512850', 'EPSG:27700', [431200, 512850]],
    ['2 600 000', 'EPSG:2056', null],
    ['NY 213 10', 'EPSG:27700', null],
    ['ZZ 213 105', 'EPSG:27700', null],
    ['NY 213 105', 'EPSG:32631', null],
    ['', 'EPSG:27700', null],
    ['<b>NY</b>', 'EPSG:27700', null],
  ])('reads "%s" in %s', (text, crs, expected) => {
    if (expected === null) expect(() => parseGridReference(text, crs)).toThrow(UserError);
    else expect(parseGridReference(text, crs)).toEqual(expected);
  });

  // the OS guide's and geodesy's own examples: TG 51409 13177, 31U DQ 48251 11943 (N 5411943)
  it('prints what it reads', () => {
    expect(printGridReference([651409.9, 313177.3], 'EPSG:27700', 10)).toBe('TG 51409 13177');
    expect(printGridReference([651409.9, 313177.3], 'EPSG:27700', 6)).toBe('TG 514 131');
    expect(printGridReference([448251.9, 5411943.8], 'EPSG:32631', 10)).toBe('31U DQ 48251 11943');
    expect(printGridReference([181340, 183520], 'EPSG:29902', 8)).toBe('R 8134 8352');
    expect(printGridReference([448251.9, 5411943.8], 'EPSG:25831', 6)).toBe('31U DQ 482 119');
    expect(printGridReference([-5000, 0], 'EPSG:27700', 6)).toBe(null);
  });

  it('reads its own MGRS of a Swiss place to the metre', () => {
    const bern: [number, number] = [2600000, 1200000];
    const printed = printGridReference(bern, 'EPSG:2056', 10)!;
    expect(printed).toMatch(/^32T LT /);
    const back = parseGridReference(printed, 'EPSG:2056');
    expect(Math.abs(back[0] - bern[0])).toBeLessThan(1.5);
    expect(Math.abs(back[1] - bern[1])).toBeLessThan(1.5);
  });
});
