import { readFileSync } from 'node:fs';
import { lineIntersect } from '@turf/turf';
import { describe, expect, test } from 'vitest';
import type { Feature } from '../../src/features/feature.ts';
import { placesAsFeatures } from '../../src/features/named-places.ts';
import { buildNetwork } from '../../src/features/network.ts';
import { readFeatures } from '../../src/features/read-geojson.ts';
import { distance, lineBetween, lineLength, type Point } from '../../src/math/plane.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';
import { area, line } from './drawn.ts';
import { seeded } from './seeded.ts';

const places = (features: Feature[], options = {}) =>
  buildNetwork(features, options).places.map((p) => `${p.kind} ${p.id}`);

describe('water', () => {
  const becks = [
    line('beck-a', 'stream', [
      [0, 1000],
      [500, 500],
    ]),
    line('beck-b', 'small-stream', [
      [1000, 1000],
      [500, 500],
    ]),
    line('river', 'stream', [
      [500, 500],
      [500, 0],
    ]),
  ];

  test('two becks make a river: a confluence named by what flows in, two sources, one mouth', () => {
    expect(places(becks)).toEqual([
      'stream-end end:beck-a/source',
      'confluence confluence:beck-a+beck-b',
      'stream-end end:beck-b/source',
      'line-end end:river/mouth',
    ]);
  });

  test('the source is the high end, whichever way a stream was drawn', () => {
    const backwards = [
      line('beck', 'stream', [
        [0, 0],
        [0, 900],
      ]),
    ];
    expect(places(backwards)[0]).toBe('stream-end end:beck/source');
    const heightAt = (_: number, north: number) => north / 10;
    const { places: found } = buildNetwork(backwards, { heightAt });
    expect(found.map((p) => [p.id, p.at[1]])).toEqual([
      ['end:beck/mouth', 0],
      ['end:beck/source', 900],
    ]);
    // a lake's surface tells nothing: as drawn
    expect(places(backwards, { heightAt: () => 210 })[0]).toBe('stream-end end:beck/source');
    expect(places(backwards, { heightAt: () => Number.NaN })[0]).toBe('stream-end end:beck/source');
  });

  test('a stream that leaves or enters a tarn has a fixed end there', () => {
    const tarn = area('tarn', 'tarn', [
      [-40, -40],
      [40, -40],
      [40, 40],
      [-40, 40],
    ]);
    const out = line('out', 'stream', [
      [0, -40],
      [0, -900],
    ]);
    const into = line('in', 'stream', [
      [0, 900],
      [0, 45],
    ]);
    expect(places([tarn, out, into])).toEqual([
      'line-end outlet:tarn+out',
      'line-end end:out/mouth',
      'stream-end end:in/source',
      'line-end inlet:tarn+in',
    ]);
  });

  test('one stream drawn in two pieces has no place to see where they join', () => {
    const pieces = [
      line('up', 'stream', [
        [0, 900],
        [0, 500],
      ]),
      line('down', 'stream', [
        [0, 500],
        [300, 0],
      ]),
    ];
    const network = buildNetwork(pieces);
    expect(network.places.map((p) => p.kind)).toEqual(['stream-end', 'join', 'line-end']);
    expect(placesAsFeatures(network, pieces).map((f) => f.kind)).toEqual(['stream-end', 'line-end']);
    expect(network.edges).toHaveLength(2);
  });
});

describe('ways and walls', () => {
  test('X of two paths is a junction, of path and stream a crossing, T a junction', () => {
    const path = line('path', 'path', [
      [0, 0],
      [1000, 0],
    ]);
    const across = line('across', 'track', [
      [300, -500],
      [300, 500],
    ]);
    const beck = line('beck', 'stream', [
      [600, 500],
      [600, -500],
    ]);
    const spur = line('spur', 'path', [
      [800, 400],
      [800, 2],
    ]);
    expect(places([path, across, beck, spur])).toEqual([
      'line-end end:path/start',
      'junction junction:across+path',
      'crossing crossing:beck+path',
      // the spur ends 2 m short of the path: meant to touch
      'junction junction:path+spur',
      'line-end end:path/end',
      'line-end end:across/start',
      'line-end end:across/end',
      'stream-end end:beck/source',
      'line-end end:beck/mouth',
      'line-end end:spur/start',
    ]);
    const short = line('short', 'path', [
      [800, 400],
      [800, 8],
    ]);
    expect(places([path, short])).not.toContain('junction junction:path+short');
  });

  test('a wall has a corner where it turns by more than 45°, once even when rounded', () => {
    const sharp = line('sharp', 'wall', [
      [0, 0],
      [500, 0],
      [500, 500],
    ]);
    const rounded = line('rounded', 'fence', [
      [0, 900],
      [494, 900],
      [498.5, 902],
      [500, 906],
      [500, 1400],
    ]);
    const slack = line('slack', 'wall', [
      [0, 2000],
      [500, 2000],
      [1000, 2400],
    ]);
    const features = [sharp, rounded, slack];
    const corners = placesAsFeatures(buildNetwork(features), features).filter((f) =>
      f.kind.endsWith('corner'),
    );
    expect(corners.map((f) => [f.id, f.kind])).toEqual([
      ['corner:sharp', 'wall-corner'],
      ['corner:rounded', 'fence-corner'],
    ]);
    expect(distance((corners[1]!.geometry as { at: Point }).at, [498.5, 902])).toBeLessThan(7);
    // a winding path has none
    expect(
      places([line('path', 'path', sharp.geometry.type === 'line' ? sharp.geometry.points : [])]),
    ).toHaveLength(2);
  });

  test('two walls end to end at an angle make a corner, straight on only a join', () => {
    const a = line('a', 'wall', [
      [0, 0],
      [400, 0],
    ]);
    expect(
      places([
        a,
        line('b', 'wall', [
          [400, 0],
          [400, 300],
        ]),
      ]),
    ).toContain('corner corner:a+b');
    expect(
      places([
        a,
        line('b', 'wall', [
          [400, 0],
          [800, 20],
        ]),
      ]),
    ).toContain('join join:a+b');
  });

  test('a path drawn along a wall meets it only where they part', () => {
    const wall = line('wall', 'wall', [
      [0, 0],
      [300, 10],
      [600, -5],
      [900, 0],
    ]);
    const path = line('path', 'path', [
      [0, 0],
      [300, 10],
      [600, -5],
      [700, 200],
    ]);
    expect(places([wall, path]).filter((p) => p.includes('+'))).toEqual([
      'junction junction:path+wall',
      'crossing crossing:path+wall',
    ]);
  });

  test('a closed wall is one loop; a ridge crossing counts, a cliff is no handrail', () => {
    const ring = line('ring', 'fence', [
      [0, 0],
      [8, 0],
      [8, 8],
      [0, 8],
      [0, 0],
    ]);
    const network = buildNetwork([
      ring,
      line('cliff', 'cliff', [
        [-50, 4],
        [50, 4],
      ]),
    ]);
    expect(network.edges.every((e) => e.feature === 'ring')).toBe(true);
    expect(network.edges.reduce((sum, e) => sum + e.metres, 0)).toBeCloseTo(32, 9);
  });

  test('no lines, no network', () => {
    expect(buildNetwork([])).toEqual({ places: [], edges: [] });
    expect(
      buildNetwork([
        area('wood', 'forest', [
          [0, 0],
          [1, 0],
          [1, 1],
        ]),
      ]),
    ).toEqual({ places: [], edges: [] });
  });
});

describe('places as features', () => {
  test('are as doubtful as the most doubtful of their lines, and keep that in `given`', () => {
    const track = line('track', 'track', [
      [0, 0],
      [1000, 0],
    ]);
    const legal = line('legal', 'right-of-way', [
      [500, -300],
      [500, 300],
    ]);
    const features = [track, legal];
    const junction = placesAsFeatures(buildNetwork(features), features).find((f) => f.kind === 'junction')!;
    expect(junction.given).toEqual({ exists: 0.5 });
    expect(junction.doubt.exists).toBe(0.5);
    expect(junction.doubt.positionMetres).toBe(8);
    expect(junction.name).toBe('junction of track and legal');
    expect(junction.origin).toBe('derived');
  });

  test('a spring-fed stream has a spring-fed end', () => {
    const beck = line(
      'beck',
      'stream',
      [
        [0, 900],
        [0, 0],
      ],
      { head: 'spring-fed' },
    );
    expect(placesAsFeatures(buildNetwork([beck]), [beck])[0]!.doubt.head).toBe('spring-fed');
  });
});

describe('against a sweep-line intersection library', () => {
  test.each([1, 2, 3, 4, 5])('random lines, seed %i: every crossing found, none invented', (seed) => {
    const random = seeded(seed);
    const lines = Array.from({ length: 25 }, (_, i) => {
      const points: Point[] = [[random() * 4000, random() * 4000]];
      for (let k = 0; k < 5; k++) {
        const [x, y] = points[k]!;
        points.push([x + (random() - 0.5) * 1500, y + (random() - 0.5) * 1500]);
      }
      return line(`l${i}`, 'path', points);
    });
    // all pairs, and each line with itself, by the library
    const expected: Point[] = [];
    const asTurf = (f: Feature) => ({
      type: 'LineString' as const,
      coordinates: f.geometry.type === 'line' ? f.geometry.points.map((p) => [...p]) : [],
    });
    lines.forEach((a, i) => {
      for (const b of lines.slice(i + 1)) {
        for (const f of lineIntersect(asTurf(a), asTurf(b)).features)
          expected.push(f.geometry.coordinates as [number, number]);
      }
    });
    const network = buildNetwork(lines, { tolerance: 0.001 });
    const met = network.places.filter((p) => new Set(p.on.map((o) => o.feature)).size > 1);
    expect(expected.length).toBeGreaterThan(30);
    for (const at of expected) expect(Math.min(...met.map((p) => distance(p.at, at)))).toBeLessThan(0.01);
    for (const p of met) expect(Math.min(...expected.map((at) => distance(p.at, at)))).toBeLessThan(0.01);
  });
});

test('edges cover every line once, end to end, and their metres are those of the ground', () => {
  const random = seeded(9);
  const lines = Array.from({ length: 40 }, (_, i) =>
    line(`l${i}`, i % 2 === 0 ? 'path' : 'wall', [
      [random() * 2000, random() * 2000],
      [random() * 2000, random() * 2000],
      [random() * 2000, random() * 2000],
    ]),
  );
  const network = buildNetwork(lines);
  for (const f of lines) {
    const points = f.geometry.type === 'line' ? f.geometry.points : [];
    const edges = network.edges.filter((e) => e.feature === f.id);
    expect(edges[0]!.fromAlong).toBe(0);
    expect(edges[edges.length - 1]!.toAlong).toBeCloseTo(lineLength(points), 9);
    edges.forEach((e, i) => {
      if (i > 0) expect(e.fromAlong).toBe(edges[i - 1]!.toAlong);
      expect(lineLength(lineBetween(points, e.fromAlong, e.toAlong))).toBeCloseTo(e.metres, 6);
      for (const [place, along] of [
        [e.a, e.fromAlong],
        [e.b, e.toAlong],
      ] as const) {
        expect(network.places[place]!.on).toContainEqual({ feature: f.id, along });
        expect(
          distance(network.places[place]!.at, lineBetween(points, along, along)[0]!),
        ).toBeLessThanOrEqual(13);
      }
    });
  }
});

test('far features change nothing of a place but its position in the list', () => {
  const near = [
    line('a', 'path', [
      [0, 0],
      [100, 0],
    ]),
    line('b', 'path', [
      [50, -50],
      [50, 50],
    ]),
  ];
  const alone = buildNetwork(near).places;
  const more = buildNetwork([
    line('far', 'wall', [
      [9000, 9000],
      [9500, 9100],
    ]),
    ...near,
  ]).places;
  expect(more.slice(2)).toEqual(alone);
});

test('ten times the lines take some ten times as long, not a hundred', () => {
  const random = seeded(4);
  const linesOf = (count: number) =>
    Array.from({ length: count }, (_, i) => {
      // one line for every 0.2 km², as in well mapped hills
      const side = Math.sqrt(count * 200_000);
      const x = random() * side;
      const y = random() * side;
      return line(`l${i}`, 'path', [
        [x, y],
        [x + 150, y + 40],
        [x + 300, y - 20],
      ]);
    });
  const timed = (count: number) => {
    const lines = linesOf(count);
    const began = performance.now();
    expect(buildNetwork(lines).edges.length).toBeGreaterThanOrEqual(count);
    return performance.now() - began;
  };
  timed(2000);
  expect(timed(20_000) / timed(2000)).toBeLessThan(50);
});

describe('real data', () => {
  const raw = (name: string) =>
    JSON.parse(readFileSync(`tests/fixtures/features/${name}.geojson`, 'utf8')).features.filter(
      (f: { geometry: unknown }) => f.geometry !== null,
    ) as { geometry: { coordinates: [number, number][] } }[];

  /** Coordinates at which three arms or more of several lines end or pass: counted from the file alone. */
  function knots(name: string): string[] {
    const arms = new Map<string, { ends: number; lines: Set<number> }>();
    raw(name).forEach(({ geometry: { coordinates } }, i) => {
      coordinates.forEach((c, k) => {
        const knot = arms.get(c.join()) ?? { ends: 0, lines: new Set<number>() };
        knot.ends += k === 0 || k === coordinates.length - 1 ? 1 : 2;
        knot.lines.add(i);
        arms.set(c.join(), knot);
      });
    });
    return [...arms].filter(([, { ends, lines }]) => ends >= 3 && lines.size > 1).map(([c]) => c);
  }

  test.each([
    ['swellendam-paths', 'EPSG:32733', 'junction', 'highway'],
    ['swellendam-rivers', 'EPSG:32733', 'confluence', 'waterway'],
    ['cheviot-rivers', 'EPSG:27700', 'confluence', 'code'],
  ])('%s: every knot of the file is found and lies where it should', (name, crs, kind, property) => {
    const project = (lon: number, lat: number) => fromLonLat(crs, [lon, lat]);
    const { features } = readFeatures(readFileSync(`tests/fixtures/features/${name}.geojson`, 'utf8'), {
      crs,
      where: name,
      fromLonLat: project,
      foreign: { classify: () => ({ kind: property === 'highway' ? 'path' : 'stream' }) },
    });
    const { places } = buildNetwork(features, { tolerance: 0.5 });
    const found = places.filter((p) => p.kind === kind && new Set(p.on.map((o) => o.feature)).size > 1);
    const expected = knots(name).map((c) => project(...(c.split(',').map(Number) as [number, number])));
    expect(expected.length).toBeGreaterThan(1);
    for (const at of expected) expect(Math.min(...found.map((p) => distance(p.at, at)))).toBeLessThan(0.01);
    // beside them only where lines cross without a common vertex, as at a bridge or where two are drawn along each other
    expect(found.length - expected.length).toBeLessThan(3);
  });
});
