import { expect, test } from 'vitest';
import { type CostSurface, PACE_REACH, PACE_STEPS } from '../../src/cost/surface.ts';
import { anyAngleField } from '../../src/search/any-angle.ts';
import { anyAngleLine } from '../../src/search/any-angle-line.ts';
import { costField } from '../../src/search/field.ts';
import { hills, type PaceOf, plane, tableReading } from './ground.ts';
import { textMap } from './text-map.ts';

/** Irmischer & Clarke 2018, men off path, m/s on a gradient: 0.11 + 0.67·exp(−(100g + 2)²/1800). From memory; any smooth pace would do. */
const smooth: PaceOf = (g) => 1 / (0.11 + 0.67 * Math.exp(-((100 * g + 2) ** 2) / 1800));
/** Naismith: 12 min per km and 10 min per 100 m of climb; it has a corner on the level. */
const cornered: PaceOf = (g) => 0.72 + 6 * Math.max(g, 0);

/** Tobler 1993: 0.6 s/m at its best on a gradient of −0.05, where it has a cusp. */
const cusped: PaceOf = (g) => 0.6 * Math.exp(3.5 * Math.abs(g + 0.05));

const REACH = 205;

/**
 * Seconds per displacement when directions may be mixed: the distance to the hull of the velocities of all directions, which is what no path on
 * a plane can undercut.
 */
function convexified(pace: PaceOf, east: number, south: number): (dx: number, dy: number) => number {
  const steep = Math.sqrt(east * east + south * south);
  const fall = Math.atan2(south, east);
  const angles = Array.from({ length: 1440 }, (_, k) => (Math.PI * k) / 720);
  // the table's own gradients as well, or a corner of the pace would be cut off
  for (let k = -PACE_REACH * PACE_STEPS; k <= PACE_REACH * PACE_STEPS; k++) {
    const share = k / PACE_STEPS / steep;
    if (Math.abs(share) < 1) angles.push(fall + Math.acos(share), fall - Math.acos(share));
  }
  const velocities = angles
    .map((angle) => {
      const [x, y] = [Math.cos(angle), Math.sin(angle)];
      const speed = 1 / pace(east * x + south * y);
      return [x * speed, y * speed] as const;
    })
    .sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const turn = (o: readonly number[], a: readonly number[], b: readonly number[]) =>
    (a[0]! - o[0]!) * (b[1]! - o[1]!) - (a[1]! - o[1]!) * (b[0]! - o[0]!);
  const chain = (points: readonly (readonly [number, number])[]) => {
    const kept: (readonly [number, number])[] = [];
    for (const p of points) {
      while (kept.length > 1 && turn(kept.at(-2)!, kept.at(-1)!, p) <= 0) kept.pop();
      kept.push(p);
    }
    return kept.slice(0, -1);
  };
  const hull = [...chain(velocities), ...chain(velocities.toReversed())];
  // seconds are the largest of what the edges of the hull say
  const edges = hull.flatMap((a, i) => {
    const b = hull[(i + 1) % hull.length]!;
    const area = a[0] * b[1] - a[1] * b[0];
    return area > 1e-9 ? [[(b[1] - a[1]) / area, (b[0] - a[0]) / area] as const] : [];
  });
  return (dx, dy) => edges.reduce((most, [x, y]) => Math.max(most, dx * x - dy * y), 0);
}

/** The worst over- and underestimate, as shares, over all cells at 200 to 205 cells from the source. */
function worst(
  pace: PaceOf,
  gradient: number,
  azimuth: number,
): { over: number; under: number; eight: number } {
  const side = 2 * REACH + 1;
  const [east, south] = [gradient * Math.cos(azimuth), gradient * Math.sin(azimuth)];
  const surface = plane(side, east, south, pace);
  const source = REACH * side + REACH;
  const field = anyAngleField(surface, [source], 'from');
  const eight = costField(surface, [source], 'from');
  const least = convexified(tableReading(surface.pace), east, south);
  const found = { over: 0, under: 0, eight: 0 };
  for (let r = -REACH; r <= REACH; r++) {
    for (let c = -REACH; c <= REACH; c++) {
      const cells = Math.sqrt(r * r + c * c);
      if (cells < 200 || cells > REACH) continue;
      const i = source + r * side + c;
      const exact = least(c * surface.cell, r * surface.cell);
      found.over = Math.max(found.over, field[i]! / exact - 1);
      found.under = Math.max(found.under, 1 - field[i]! / exact);
      found.eight = Math.max(found.eight, eight[i]! / exact - 1);
    }
  }
  return found;
}

test.each([
  ['smooth', smooth, 0, 0],
  ['smooth', smooth, 0.2, 1.1],
  ['smooth', smooth, 0.3, 0],
  ['smooth', smooth, 0.4, Math.PI / 4],
  ['smooth', smooth, 0.5, 0.35],
  ['smooth', smooth, 0.6, 0],
  ['Tobler', cusped, 0.1, 0.6],
  ['Tobler', cusped, 0.2, 0],
  ['Tobler', cusped, 0.3, 0.35],
  ['Tobler', cusped, 0.4, Math.PI / 4],
  ['Tobler', cusped, 0.5, 0],
  ['Naismith', cornered, 0.1, 0.35],
  ['Naismith', cornered, 0.3, 0.35],
  ['Naismith', cornered, 0.6, 1.1],
])(
  'within a quarter per cent in every direction: $0 pace, gradient $2 towards $3 rad',
  (_name, pace, gradient, azimuth) => {
    const { over, under, eight } = worst(pace, gradient, azimuth);
    expect(over).toBeLessThan(0.0025);
    expect(under).toBeLessThan(2e-5);
    expect(eight).toBeGreaterThan(0.08);
  },
);

test('the way along a corner of the pace is followed where the ground curves: a cone, against cells a quarter the size', () => {
  const field = (cell: number) => {
    const side = 4000 / cell + 1;
    const surface: CostSurface = { ...plane(side, 0, 0, cornered), cell };
    for (let i = 0; i < side * side; i++) {
      const [x, y] = [(i % side) * cell - 3500, Math.floor(i / side) * cell - 2400];
      surface.elevation[i] = -0.25 * Math.sqrt(x * x + y * y);
    }
    const source = (side >> 1) * side + (side >> 1);
    const seconds = anyAngleField(surface, [source], 'from');
    return (x: number, y: number) => seconds[source + Math.round(y / cell) * side + Math.round(x / cell)]!;
  };
  const coarse = field(20);
  const fine = field(5);
  let most = 0;
  for (let angle = 0; angle < 6.28; angle += 0.005) {
    const [x, y] = [20 * Math.round(90 * Math.cos(angle)), 20 * Math.round(90 * Math.sin(angle))];
    most = Math.max(most, coarse(x, y) / fine(x, y) - 1);
  }
  // 1.3 % when it is not followed, in either field
  expect(most).toBeLessThan(0.01);
});

test('beyond the critical gradient a line zig-zags: straight up costs what the rise costs at the best gradient', () => {
  const exponential: PaceOf = (g) => Math.exp(3.5 * Math.abs(g));
  const surface = plane(101, 0, 0.7, exponential);
  const field = anyAngleField(surface, [50 * 101 + 50], 'from');
  // least of pace(g)/g is at g = 1/3.5, and climbing 0.7 · 500 m at it takes 350 · 3.5 · e
  expect(field[100 * 101 + 50]! / (350 * 3.5 * Math.E)).toBeCloseTo(1, 3);
});

test('to and from one place: the same seconds on hills', () => {
  const surface = hills(60);
  const [a, b] = [1 * 60 + 5, 59 * 60 + 47];
  expect(surface.factor[b]).toBeLessThan(Infinity);
  const from = anyAngleField(surface, [a], 'from')[b]!;
  const to = anyAngleField(surface, [b], 'to')[a]!;
  expect(from).toBeGreaterThan(0);
  expect(Math.abs(from / to - 1)).toBeLessThan(5e-3);
});

test('never longer than 8 neighbours, never shorter than the straight line at the best pace', () => {
  const ground = hills(80);
  // a pace that is linear between the table's entries reads the same in both searches on level ground
  const surface = { ...ground, elevation: ground.elevation.map(() => 0) };
  const source = 40 * 80 + 40;
  const any = anyAngleField(surface, [source], 'from');
  const eight = costField(surface, [source], 'from');
  const best = Math.min(...surface.pace) * Math.min(...surface.factor);
  for (let i = 0; i < any.length; i++) {
    if (eight[i] === Infinity) {
      expect(any[i]).toBe(Infinity);
      continue;
    }
    expect(any[i]).toBeLessThanOrEqual(eight[i]! * (1 + 1e-6));
    const [c, r] = [(i % 80) - 40, Math.floor(i / 80) - 40];
    expect(any[i]).toBeGreaterThanOrEqual(Math.sqrt(c * c + r * r) * surface.cell * best * (1 - 1e-5));
  }
});

test('the traced line takes the field’s seconds, starts and ends where it should, and keeps off what is closed', () => {
  const surface = hills(120);
  const [a, b] = [6 * 120 + 9, 101 * 120 + 112];
  for (const direction of ['from', 'to'] as const) {
    const field = anyAngleField(surface, [a], direction);
    const line = anyAngleLine(surface, field, b, direction)!;
    const ends = [line.points[0]!, line.points.at(-1)!];
    if (direction === 'to') ends.reverse();
    expect(ends).toEqual([
      [95, -65],
      [1125, -1015],
    ]);
    expect(Math.abs(line.seconds / field[b]! - 1)).toBeLessThan(0.006);
    for (const [east, north] of line.points) {
      const near = [Math.floor, Math.ceil].flatMap((x) =>
        [Math.floor, Math.ceil].map((y) => y(-north / 10 - 0.5) * 120 + x(east / 10 - 0.5)),
      );
      expect(near.some((i) => surface.factor[i]! < Infinity)).toBe(true);
    }
  }
});

test('on open flat ground the line is straight', () => {
  const surface = plane(100, 0, 0, () => 1);
  const field = anyAngleField(surface, [5 * 100 + 2], 'from');
  const line = anyAngleLine(surface, field, 71 * 100 + 93, 'from')!;
  const [ax, ay] = line.points[0]!;
  const [bx, by] = line.points.at(-1)!;
  const length = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
  // the front is flat across a line: two cells aside in 110 cost a tenth of a per cent
  for (const [x, y] of line.points) {
    expect(Math.abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length).toBeLessThan(20);
  }
  expect(line.seconds / length).toBeLessThan(1.005);
});

test('barriers, a closed source, a limit', () => {
  const { surface, place } = textMap(`
    S.#..
    .#..T
    #....
  `);
  const field = anyAngleField(surface, [place('S')], 'from');
  expect(field[place('T')]).toBe(Infinity);
  expect(anyAngleLine(surface, field, place('T'), 'from')).toBeNull();
  expect(anyAngleField(surface, [2], 'from').every((s) => s === Infinity)).toBe(true);
  const open = textMap('S.........');
  const near = anyAngleField(open.surface, [0], 'from', 35);
  expect([...near].map((s) => s < Infinity)).toEqual([...Array(4).fill(true), ...Array(6).fill(false)]);
});
