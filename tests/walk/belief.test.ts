import { describe, expect, test } from 'vitest';
import { Belief } from '../../src/walk/belief.ts';
import { benchParty, benchWorld, CERTAIN, spot } from './plain-ground.ts';

/*
 * The party's doubt against closed forms: a straight leg of length d errs across by √((d·σ)² + w²·d/100) and along by 1.054·d·σ_pace; a
 * bias that lasts errs by the displacement, whatever the way; fixes weigh by the inverse of their covariances. Derived.
 */
const target = spot('target', 'boulder', [900, 900], CERTAIN);
const BEARING = (4 * Math.PI) / 180;
const PACE = 0.05;
const WANDER = 7;
const { navigator } = benchWorld({
  features: [target],
  start: [0, 0],
  target,
  party: benchParty('competent', { bearingDegrees: 4, paceShare: PACE }),
});

function belief(x = 0, y = 0, sd = 0): Belief {
  const b = new Belief(navigator);
  b.fix(x, y, sd);
  return b;
}
const U = [0.6, 0.8] as const;
/** SD along and across a direction. */
const sds = (b: Belief, [east, north]: readonly [number, number]) => [
  b.sdAlong(east, north),
  b.sdAlong(-north, east),
];

describe('a straight leg', () => {
  test.each([
    [500, 1, 1, 0],
    [500, 1, 1, WANDER],
    [300, 1.6, 1.2, WANDER],
  ])('of %d m, bearing × %d, pace × %d, wander %d m', (d, bearing, pace, wander) => {
    const b = belief(10, 20, 3);
    const steps = 10;
    for (let i = 0; i < steps; i++) b.moveOnBearing(U[0], U[1], d / steps, bearing, pace, wander);
    expect(b.x).toBeCloseTo(10 + U[0] * d, 9);
    expect(b.y).toBeCloseTo(20 + U[1] * d, 9);
    expect(b.since).toBeCloseTo(d, 9);
    const [along, across] = sds(b, U);
    expect(across).toBeCloseTo(Math.hypot(3, d * bearing * BEARING, wander * Math.sqrt(d / 100)), 9);
    // 1.111 stands for 1 + 1/9: day and leg
    expect(along! / Math.hypot(3, d * pace * PACE * Math.sqrt(10 / 9))).toBeCloseTo(1, 3);
  });
});

test('out and back on one bearing the bias goes, the wander stays', () => {
  const b = belief();
  b.moveOnBearing(U[0], U[1], 400, 1, 1, WANDER);
  b.moveOnBearing(-U[0], -U[1], 400, 1, 1, WANDER);
  const [along, across] = sds(b, U);
  expect(along).toBeCloseTo(0, 6);
  expect(across).toBeCloseTo(WANDER * Math.sqrt(8), 9);
});

test('round a corner it is the displacement that errs', () => {
  const b = belief();
  b.moveOnBearing(1, 0, 300, 1, 1, 0);
  b.moveOnBearing(0, 1, 400, 1, 1, 0);
  const [along, across] = sds(b, U);
  expect(across).toBeCloseTo(500 * BEARING, 9);
  expect(along! / (500 * PACE * Math.sqrt(10 / 9))).toBeCloseTo(1, 3);
});

test('along a line only the count errs', () => {
  const b = belief(0, 0, 2);
  b.moveOnLine(150, 200, 260, 1.2);
  expect([b.x, b.y, b.since]).toEqual([150, 200, 260]);
  const [along, across] = sds(b, U);
  expect(across).toBeCloseTo(2, 9);
  expect(along! / Math.hypot(2, 250 * 1.2 * PACE * Math.sqrt(10 / 9))).toBeCloseTo(1, 3);
});

test('a line recognised fixes across it and leaves the doubt along it', () => {
  const b = belief();
  b.moveOnBearing(0.8, 0.6, 700, 1, 1, WANDER);
  const before = b.sdAlong(U[0], U[1]);
  b.fixOnLine(5, 6, U[0], U[1], 4);
  expect([b.x, b.y, b.since]).toEqual([5, 6, 0]);
  expect(sds(b, U)[0]).toBeCloseTo(before, 9);
  expect(sds(b, U)[1]).toBeCloseTo(4, 9);
  // nothing is left between along and across
  const diagonal = b.sdAlong((U[0] - U[1]) / Math.SQRT2, (U[1] + U[0]) / Math.SQRT2);
  expect(diagonal).toBeCloseTo(Math.sqrt((before * before + 16) / 2), 9);
});

/** A doubt with a slant to it, and its covariance. */
function slanted() {
  const b = belief(100, 50, 5);
  b.moveOnBearing(U[0], U[1], 600, 1, 1, WANDER);
  b.refresh();
  return { b, xx: b.xx, xy: b.xy, yy: b.yy };
}

test('a fix in view weighs by the inverse of the covariances, and the doubt after it is that of both', () => {
  const { b, xx, xy, yy } = slanted();
  const [x, y] = [b.x, b.y];
  const r = 20 * 20;
  // information form: P⁻¹ + I/r, and the mean weighed by each
  const det = xx * yy - xy * xy;
  const [ixx, ixy, iyy] = [yy / det, -xy / det, xx / det];
  const [axx, ayy] = [ixx + 1 / r, iyy + 1 / r];
  const adet = axx * ayy - ixy * ixy;
  const [pxx, pxy, pyy] = [ayy / adet, -ixy / adet, axx / adet];
  const vx = ixx * x + ixy * y + (x + 30) / r;
  const vy = ixy * x + iyy * y + (y - 40) / r;
  b.blend(x + 30, y - 40, 20);
  expect(b.x).toBeCloseTo(pxx * vx + pxy * vy, 6);
  expect(b.y).toBeCloseTo(pxy * vx + pyy * vy, 6);
  b.refresh();
  expect(b.xx).toBeCloseTo(pxx, 6);
  expect(b.xy).toBeCloseTo(pxy, 6);
  expect(b.yy).toBeCloseTo(pyy, 6);
  expect(b.since).toBe(0);
});

test('no fix makes anybody surer than a metre', () => {
  const b = belief(0, 0, 0.1);
  b.blend(0, 0, 0.1);
  expect(sds(b, [1, 0])).toEqual([1, 1]);
});

test('a clash is the distance in SD, with the map and 5 m of the eye', () => {
  const { b, xx, xy, yy } = slanted();
  expect(b.clash(7, -3, b.x + 7, b.y - 3, 10)).toBe(0);
  const [dx, dy] = [80, -35];
  const [sxx, syy] = [xx + 100 + 25, yy + 100 + 25];
  const det = sxx * syy - xy * xy;
  const squared = (syy * dx * dx - 2 * xy * dx * dy + sxx * dy * dy) / det;
  expect(b.clash(dx, dy, b.x, b.y, 10)).toBeCloseTo(Math.sqrt(squared), 9);
  // a doubt alike all round: d/√(σ² + sd² + 25)
  expect(belief(0, 0, 12).clash(30, 40, 0, 0, 9)).toBeCloseTo(50 / Math.sqrt(144 + 81 + 25), 9);
});
