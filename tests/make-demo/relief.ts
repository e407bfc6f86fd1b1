import type { Point } from '../../src/math/plane.ts';
import { distanceToSegment, length, nearestShare } from '../../src/math/plane.ts';
import { exp } from '../../src/math/portable.ts';
import { drain, type Heights, raisePits } from './drainage.ts';
import { latticeShare, roughness } from './noise.ts';

/** The made place: 6 × 6 km on 10 m cells, its south-west corner in the open sea of UTM zone 30. */
export const CRS = 'EPSG:32630';
export const WEST = 440_000;
export const SOUTH = 6_700_000;
export const CELL = 10;
export const SIDE = 600;
export const SEED = 7;

/** Heights are kept in 64ths of a metre: exact as Float32 and small when deflated. */
const GRAIN = 1 / 64;
/** Rounds of wearing down, the wear of a stream per round, and the creep of the slopes. */
const ROUNDS = 26;
const WEAR = 0.009;
const CREEP = 0.13;

export interface Water {
  readonly centre: Point;
  readonly half: Point;
}

/** The two tarns: centre and half axes, metres from the south-west corner. */
export const TARNS: readonly Water[] = [
  { centre: [1980, 4500], half: [100, 58] },
  { centre: [2350, 4400], half: [44, 30] },
];

/** Knolls that stand out after the wearing down: centre, height, radius. */
const KNOLLS: readonly (readonly [Point, number, number])[] = [
  [[4320, 2730], 26, 120],
  [[2870, 4420], 9, 55],
  [[3060, 4520], 8, 50],
  [[1560, 3890], 10, 60],
  [[2240, 3560], 7, 45],
  [[3420, 3900], 9, 60],
];

/** The scar: a step of the ground along a line, high side to the north. */
export const SCAR: readonly Point[] = [
  [2620, 3010],
  [2760, 2960],
  [2930, 2990],
  [3090, 2950],
];

/** Heights of the Ulvarrow Heights, metres; the same bits on every machine. */
export function makeHeights(): Heights {
  const ground: Heights = { columns: SIDE, rows: SIDE, cell: CELL, z: new Float64Array(SIDE * SIDE) };
  fillFrom(ground, rawHeight);
  for (let round = 0; round < ROUNDS; round++) wearDown(ground, round);
  raiseKnollsAndScar(ground);
  layTarns(ground);
  for (let i = 0; i < ground.z.length; i++) ground.z[i] = Math.round(ground.z[i]! / GRAIN) * GRAIN;
  raisePits(ground, GRAIN, SEED + 3000);
  return ground;
}

function fillFrom(ground: Heights, height: (x: number, y: number) => number): void {
  for (let r = 0; r < SIDE; r++)
    for (let c = 0; c < SIDE; c++) ground.z[r * SIDE + c] = height((c + 0.5) * CELL, (SIDE - r - 0.5) * CELL);
}

/** Valleys laid out by hand before the water works on them: line, height of the floor at its head and at its end, half width. */
const VALLEYS: readonly { readonly line: readonly Point[]; readonly floor: Point; readonly half: number }[] =
  [
    {
      line: [
        [2350, 3900],
        [2150, 3500],
        [2020, 3050],
        [2180, 2450],
        [2050, 1850],
        [2500, 1150],
        [2700, 0],
      ],
      floor: [528, 250],
      half: 190,
    },
    {
      line: [
        [3250, 3750],
        [3380, 3250],
        [3330, 2700],
        [3080, 2150],
        [3120, 1600],
        [2500, 1100],
      ],
      floor: [505, 278],
      half: 200,
    },
    {
      line: [
        [2900, 4600],
        [3550, 4300],
        [4150, 3850],
        [4750, 3700],
        [5350, 3250],
        [6000, 3300],
      ],
      floor: [530, 254],
      half: 230,
    },
    {
      line: [
        [4750, 2450],
        [4500, 1850],
        [4620, 1250],
        [4200, 600],
        [4250, 0],
      ],
      floor: [395, 252],
      half: 190,
    },
    {
      line: [
        [1350, 4350],
        [900, 3950],
        [420, 3750],
        [0, 3250],
      ],
      floor: [520, 300],
      half: 210,
    },
    {
      line: [
        [1900, 4900],
        [2000, 5350],
        [1750, 5700],
        [1800, 6000],
      ],
      floor: [535, 330],
      half: 190,
    },
    {
      line: [
        [1150, 3300],
        [1250, 2750],
        [900, 2200],
        [1050, 1500],
        [700, 700],
        [800, 0],
      ],
      floor: [470, 252],
      half: 210,
    },
  ];

/** The land before the water: a plateau in the north-west, an arm of it to the south-east, low ground around. */
function rawHeight(x: number, y: number): number {
  const wx = x + 190 * roughness(x, y, 1300, 0.55, SEED + 11);
  const wy = y + 190 * roughness(x, y, 1300, 0.55, SEED + 23);
  const p = length((wx - 2250) / 1700, (wy - 4150) / 1350);
  const plateau = 1 - ramp(p, 0.6, 1.9);
  const reach = distanceToSegment([wx, wy], [2900, 3500], [5300, 2250]) / 900;
  const arm = 1 - ramp(reach, 0.02, 1.25);
  const low = 290 + 48 * (1 - ramp(p, 0.8, 3.2)) + 0.006 * (3000 - x);
  const high = Math.max(236 * plateau, 172 * arm) + 0.2 * Math.min(236 * plateau, 172 * arm);
  const saddle = 30 * bell(x - 3680, y - 3090, 190);
  const fine = latticeShare(Math.round(x), Math.round(y), SEED + 5);
  const uncut = low + high - saddle + 24 * roughness(x, y, 640, 0.5, SEED);
  return cutValleys(uncut, [wx, wy]) + 1.5 * fine;
}

/** The ground let down towards the floor of the valley that takes most of it. */
function cutValleys(height: number, p: Point): number {
  let cut = height;
  for (const { line, floor, half } of VALLEYS)
    for (let i = 1; i < line.length; i++) {
      const d = distanceToSegment(p, line[i - 1]!, line[i]!) / half;
      const along = (i - 1 + nearestShare(p, line[i - 1]!, line[i]!)) / (line.length - 1);
      const bottom = floor[0] + (floor[1] - floor[0]) * (0.55 * along + 0.45 * Math.sqrt(along));
      if (bottom < height) cut = Math.min(cut, height - (height - bottom) / (1 + d * d * d));
    }
  return cut;
}

/** One round: streams cut by area and slope (implicit stream power, Braun & Willett 2013), slopes creep. */
function wearDown(ground: Heights, round: number): void {
  const { z } = ground;
  raisePits(ground, 0.01, SEED + 2000 + round);
  const { receiver, order, flow } = drain(ground, SEED + 1000 + round);
  for (let k = 0; k < order.length; k++) {
    const i = order[k]!;
    const to = receiver[i]!;
    if (to < 0) continue;
    const f = WEAR * Math.sqrt(flow[i]!);
    z[i] = (z[i]! + f * z[to]!) / (1 + f);
  }
  const before = z.slice();
  for (let r = 1; r < SIDE - 1; r++)
    for (let c = 1; c < SIDE - 1; c++) {
      const i = r * SIDE + c;
      const around = (before[i - 1]! + before[i + 1]! + before[i - SIDE]! + before[i + SIDE]!) / 4;
      z[i] = before[i]! + CREEP * (around - before[i]!);
    }
}

function raiseKnollsAndScar(ground: Heights): void {
  for (let r = 0; r < SIDE; r++)
    for (let c = 0; c < SIDE; c++) {
      const x = (c + 0.5) * CELL;
      const y = (SIDE - r - 0.5) * CELL;
      let rise = 0;
      for (const [at, height, radius] of KNOLLS) rise += height * bell(x - at[0], y - at[1], radius);
      ground.z[r * SIDE + c]! += rise + scarRise([x, y]);
    }
}

/** 17 m up across the scar within two cells, dying out northwards over 300 m and at both ends. */
function scarRise(p: Point): number {
  let best = Number.POSITIVE_INFINITY;
  let side = 0;
  let along = 0;
  for (let i = 1; i < SCAR.length; i++) {
    const a = SCAR[i - 1]!;
    const b = SCAR[i]!;
    const d = distanceToSegment(p, a, b);
    if (d >= best) continue;
    best = d;
    side = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    along = (i - 1 + nearestShare(p, a, b)) / (SCAR.length - 1);
  }
  const ends = ramp(along, 0, 0.12) * (1 - ramp(along, 0.88, 1));
  const signed = side >= 0 ? best : -best;
  return 17 * ends * ramp(signed, -9, 11) * (1 - ramp(signed, 30, 300));
}

/** Each tarn lies level at the lowest height of its own ground; a rim cell stays as its outlet. */
function layTarns(ground: Heights): void {
  for (const { centre, half } of TARNS) {
    const inside: number[] = [];
    let level = Number.POSITIVE_INFINITY;
    for (let r = 0; r < SIDE; r++)
      for (let c = 0; c < SIDE; c++) {
        const d = length(
          ((c + 0.5) * CELL - centre[0]) / half[0],
          ((SIDE - r - 0.5) * CELL - centre[1]) / half[1],
        );
        if (d > 1) continue;
        inside.push(r * SIDE + c);
        level = Math.min(level, ground.z[r * SIDE + c]!);
      }
    for (const i of inside) ground.z[i] = level;
  }
}

/** 0 below `from`, 1 above `to`, smooth between. */
function ramp(value: number, from: number, to: number): number {
  const t = Math.min(1, Math.max(0, (value - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

function bell(dx: number, dy: number, radius: number): number {
  return exp(-(dx * dx + dy * dy) / (2 * radius * radius));
}
