import { describe, expect, test } from 'vitest';
import { areaOf, contains, placeOf } from '../../src/features/areas.ts';
import { clipFeatures, thinned } from '../../src/features/clip.ts';
import { edgesOfAreas } from '../../src/features/edges.ts';
import { boxOf, indexFeatures, metresTo, nearFeatures } from '../../src/features/index-near.ts';
import { lookalikesOf, metresBetween } from '../../src/features/lookalikes.ts';
import { lineLength, type Point } from '../../src/math/plane.ts';
import { area, line, point } from './drawn.ts';
import { seeded } from './seeded.ts';

const square = (x: number, y: number, side: number): Point[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

describe('near', () => {
  test('the same as asking every feature, for points, lines and areas', () => {
    const random = seeded(3);
    const p = (): Point => [random() * 2000, random() * 2000];
    const features = Array.from({ length: 300 }, (_, i) =>
      i % 3 === 0
        ? point(`p${i}`, 'cairn', p())
        : i % 3 === 1
          ? line(`l${i}`, 'wall', [p(), p()])
          : area(`a${i}`, 'marsh', square(...p(), 80)),
    );
    const index = indexFeatures(features);
    for (let k = 0; k < 50; k++) {
      const at = p();
      const expected = features.flatMap((f, i) => (metresTo(f.geometry, at) <= 120 ? [i] : []));
      expect(nearFeatures(index, at[0], at[1], 120)).toEqual(expected);
    }
    expect(nearFeatures(indexFeatures([]), 0, 0, 99)).toEqual([]);
  });

  test('metres: 0 inside an area, to its edge outside, and out of its hole', () => {
    const ring = {
      type: 'area',
      rings: [
        [...square(0, 0, 100), [0, 0] as Point],
        [...square(40, 40, 20), [40, 40] as Point],
      ],
    } as const;
    expect(metresTo(ring, [10, 10])).toBe(0);
    expect(metresTo(ring, [50, 50])).toBe(10);
    expect(metresTo(ring, [103, 104])).toBe(5);
    expect(contains(ring.rings, [50, 50])).toBe(false);
    expect(areaOf(ring.rings)).toBe(9600);
    expect(boxOf(ring)).toEqual([0, 0, 100, 100]);
  });

  test('one place for a feature: point, half way along, centre; of a horseshoe a place on it', () => {
    expect(placeOf(point('p', 'cairn', [3, 4]))).toEqual([3, 4]);
    expect(
      placeOf(
        line('l', 'wall', [
          [0, 0],
          [30, 0],
          [30, 30],
        ]),
      ),
    ).toEqual([30, 0]);
    expect(placeOf(area('a', 'marsh', square(400_000, 600_000, 50)))).toEqual([400_025, 600_025]);
    const horseshoe = area('h', 'lake', [
      [0, 0],
      [100, 0],
      [100, 100],
      [90, 100],
      [90, 10],
      [10, 10],
      [10, 100],
      [0, 100],
    ]);
    expect(metresTo(horseshoe.geometry, placeOf(horseshoe))).toBe(0);
  });
});

describe('lookalikes', () => {
  const beck = line('beck', 'stream', [
    [0, 0],
    [0, 1000],
  ]);
  const twin = line('twin', 'small-stream', [
    [120, 0],
    [120, 1000],
  ]);
  const wall = line('wall', 'wall', [
    [50, 0],
    [50, 1000],
  ]);
  const tarn = area('tarn', 'tarn', square(300, 300, 60));
  const pool = point('pool', 'pool', [420, 330]);
  const features = [beck, twin, wall, tarn, pool, point('far', 'pool', [4000, 0])];

  test('others of a kind that could be taken for it, with the metres between, nearest first', () => {
    expect(lookalikesOf(beck, features, 150)).toEqual([{ feature: twin, metres: 120 }]);
    expect(lookalikesOf(beck, features, 100)).toEqual([]);
    expect(lookalikesOf(tarn, features, 150)).toEqual([{ feature: pool, metres: 60 }]);
    expect(lookalikesOf(wall, features, 5000)).toEqual([]);
    expect(lookalikesOf(beck, indexFeatures(features), 150)).toEqual(lookalikesOf(beck, features, 150));
  });

  test('of a long line, where one stands', () => {
    expect(lookalikesOf(beck, features, 150, [0, -200])).toEqual([]);
    expect(lookalikesOf(beck, features, 150, [0, 500])).toHaveLength(1);
  });

  test('lines that cross are 0 m apart, though none of their vertices is near', () => {
    const across = line('across', 'stream', [
      [-700, 500],
      [700, 510],
    ]);
    expect(metresBetween(beck.geometry, across.geometry)).toBe(0);
    expect(lookalikesOf(beck, [beck, across], 10)).toHaveLength(1);
  });
});

describe('clipping and thinning', () => {
  const box = [0, 0, 100, 100] as const;

  test('points by place, lines cut into pieces, areas cut at the edge, the rest untouched', () => {
    const inside = line('inside', 'path', [
      [10, 10],
      [20, 20],
    ]);
    const clipped = clipFeatures(
      [
        point('in', 'cairn', [50, 50]),
        point('out', 'cairn', [150, 50]),
        inside,
        line('zigzag', 'wall', [
          [-50, 10],
          [150, 10],
          [150, 60],
          [-50, 60],
        ]),
        area('marsh', 'marsh', square(80, 80, 60)),
        area('away', 'marsh', square(300, 300, 60)),
      ],
      box,
    );
    expect(clipped.map((f) => f.id)).toEqual(['in', 'inside', 'zigzag.1', 'zigzag.2', 'marsh']);
    expect(clipped[1]).toEqual(inside);
    expect(clipped[2]!.geometry).toEqual({
      type: 'line',
      points: [
        [0, 10],
        [100, 10],
      ],
    });
    expect(clipped[3]!.geometry).toEqual({
      type: 'line',
      points: [
        [100, 60],
        [0, 60],
      ],
    });
    const marsh = clipped[4]!.geometry;
    expect(marsh.type === 'area' && areaOf(marsh.rings)).toBe(400);
  });

  test('cut pieces never take an id that is there already', () => {
    const features = [
      line('a', 'wall', [
        [-50, 10],
        [150, 10],
        [150, 60],
        [-50, 60],
      ]),
      line('a.1', 'wall', [
        [1, 1],
        [9, 9],
      ]),
    ];
    expect(new Set(clipFeatures(features, box).map((f) => f.id)).size).toBe(3);
  });

  test('random lines keep what is inside, to the length that a fine walk counts', () => {
    const random = seeded(8);
    for (let k = 0; k < 20; k++) {
      const points = Array.from({ length: 6 }, (): Point => [random() * 300 - 100, random() * 300 - 100]);
      const kept = clipFeatures([line('l', 'path', points)], box);
      const length = kept.reduce(
        (s, f) => s + (f.geometry.type === 'line' ? lineLength(f.geometry.points) : 0),
        0,
      );
      let counted = 0;
      for (let i = 1; i < points.length; i++) {
        const [a, b] = [points[i - 1]!, points[i]!];
        for (let s = 0; s < 4000; s++) {
          const t = (s + 0.5) / 4000;
          const [x, y] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
          if (x >= 0 && y >= 0 && x <= 100 && y <= 100) counted += lineLength([a, b]) / 4000;
        }
      }
      expect(Math.abs(length - counted)).toBeLessThan(0.6);
    }
  });

  test('thinned lines stay within the tolerance and keep their ends', () => {
    const points = Array.from({ length: 500 }, (_, i): Point => [i * 4, 30 * Math.sin(i / 40)]);
    const wiggly = line('w', 'path', points);
    const [thin] = thinned([wiggly], 2);
    const kept = thin!.geometry.type === 'line' ? thin!.geometry.points : [];
    expect(kept.length).toBeLessThan(60);
    expect(kept[0]![0]).toBe(0);
    expect(kept[kept.length - 1]![0]).toBe(1996);
    for (const p of points) expect(metresTo(thin!.geometry, p)).toBeLessThan(2.01);
    // the caller's own line is untouched
    expect(wiggly.geometry.type === 'line' && wiggly.geometry.points).toHaveLength(500);
  });
});

test('edges: of woods and marshes, not of tarns or of a copse', () => {
  const edges = edgesOfAreas([
    area('wood', 'forest', square(0, 0, 300)),
    area('bog', 'marsh', square(0, 0, 100)),
    area('copse', 'forest', square(0, 0, 30)),
    area('tarn', 'tarn', square(0, 0, 100)),
  ]);
  expect(edges.map((e) => [e.id, e.kind, e.origin])).toEqual([
    ['edge:wood', 'forest-edge', 'derived'],
    ['edge:bog', 'marsh-edge', 'derived'],
  ]);
});
