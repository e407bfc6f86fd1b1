import { expect, test } from 'vitest';
import { lineLength, nearestOnLine, type Point } from '../../src/math/plane.ts';
import { contourLines } from '../../viz/map/contours.ts';
import { contourInterval, contourNumber, printBar, roundBar } from '../../viz/map/map-units.ts';
import { asciiGround, fixture } from './ascii-ground.ts';

const ground = asciiGround('surface.asc');
const ours = contourLines(ground, 10);

/** gdal_contour's lines by height; the command is in the fixture's make.sh. */
const theirs = new Map<number, Point[][]>();
for (const f of JSON.parse(fixture('contours.geojson')).features) {
  const lines = theirs.get(f.properties.height) ?? [];
  lines.push(f.geometry.coordinates);
  theirs.set(f.properties.height, lines);
}

test('contours lie where gdal_contour has them, to a centimetre of a metre', () => {
  for (const { height, lines } of ours) {
    for (const line of lines) {
      for (const p of line) {
        const away = Math.min(...theirs.get(height)!.map((l) => nearestOnLine(p, l).away));
        expect(away, `${height} m at ${p}`).toBeLessThan(0.01);
      }
    }
  }
});

test('and none is missing: inside the outer half cells, as long as gdal has them', () => {
  expect(ours.map((c) => c.height)).toEqual([...theirs.keys()].sort((a, b) => a - b));
  const inner = (p: Point) => p[0] >= 1005 && p[0] <= 1295 && p[1] >= 2005 && p[1] <= 2235;
  const beside = (p: Point) => p[0] > 1194 && p[0] < 1236 && p[1] > 2064 && p[1] < 2106;
  const length = (lines: readonly (readonly Point[])[]) => {
    let sum = 0;
    for (const l of lines) {
      for (let i = 1; i < l.length; i++) {
        const [a, b] = [l[i - 1]!, l[i]!];
        if (inner(a) && inner(b) && !beside(a) && !beside(b)) sum += lineLength([a, b]);
      }
    }
    return sum;
  };
  for (const { height, lines } of ours) {
    const gdal = length(theirs.get(height)!);
    expect(Math.abs(length(lines) - gdal), `${height} m`).toBeLessThan(Math.max(0.5, gdal * 0.01));
  }
});

test('no line runs along the edge or into missing cells', () => {
  for (const { lines } of ours) {
    for (const p of lines.flat()) {
      expect(p[0] > 1200 && p[0] < 1230 && p[1] > 2070 && p[1] < 2100).toBe(false);
      expect(p[0]).toBeGreaterThan(1000);
      expect(p[0]).toBeLessThan(1300);
    }
  }
});

test('every fifth is heavy, and the interval follows the relief', () => {
  expect(ours.filter((c) => c.heavy).every((c) => c.height % 50 === 0)).toBe(true);
  expect(contourInterval(100, 112, 18)).toBe(1);
  expect(contourInterval(340, 560, 18)).toBe(20);
  expect(contourInterval(500, 2500, 18)).toBe(200);
});

test('in feet the interval is round in feet, and so is what stands on a contour', () => {
  // international foot, 0.3048 m; 220 m are 722 ft: 18 lines at most are 50 ft apart
  expect(contourInterval(340, 560, 18, 'imperial') / 0.3048).toBeCloseTo(50, 9);
  expect(contourNumber(15.24, 'imperial')).toBe('50');
  expect(contourNumber(15.24, 'metric')).toBe('15');
  const feet = contourLines(ground, 10 * 0.3048).filter((c) => c.heavy);
  expect(feet.length).toBeGreaterThan(2);
  for (const { height } of feet) expect(Number(contourNumber(height, 'imperial')) % 50).toBe(0);
});

test('scale bars are round in the units of the reader', () => {
  expect(roundBar(730, 'metric')).toEqual({ metres: 500, text: '500 m' });
  expect(roundBar(2300, 'metric')).toEqual({ metres: 2000, text: '2 km' });
  // international yard 0.9144 m, mile of 1760 of them
  expect(roundBar(730, 'imperial')).toEqual({ metres: expect.closeTo(457.2, 6), text: '500 yd' });
  expect(roundBar(900, 'imperial').text).toBe('½ mi');
  expect(roundBar(4000, 'imperial')).toEqual({ metres: expect.closeTo(2 * 1609.344, 6), text: '2 mi' });
  expect(printBar(25_000, 'metric').metres).toBe(1000);
  expect(printBar(25_000, 'imperial').metres).toBeCloseTo(804.672, 9);
});
