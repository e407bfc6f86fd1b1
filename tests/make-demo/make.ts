import { mkdirSync, writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { distance, length, nearestOnLine, type Point } from '../../src/math/plane.ts';
import { writeGeoTiff } from '../../src/terrain/write-geotiff.ts';
import { type Drainage, drain, type Heights } from './drainage.ts';
import { roughness } from './noise.ts';
import { AREAS, type Drawn, LINES, POINTS, STREAM_NAMES } from './plan.ts';
import { CELL, CRS, makeHeights, SEED, SIDE, SOUTH, TARNS, type Water, WEST } from './relief.ts';
import { cellOf, placeOf, traceStreams } from './streams.ts';

/* Makes the demo ground, terrains/demo. DEVELOPERS.md says how to run it. The same files every time. */

export interface Item {
  readonly type: 'Feature';
  readonly properties: Readonly<Record<string, unknown>>;
  readonly geometry: { readonly type: 'Point' | 'LineString' | 'Polygon'; readonly coordinates: unknown };
}

export interface Demo {
  readonly heights: Heights;
  readonly items: readonly Item[];
}

export function makeDemo(): Demo {
  const heights = makeHeights();
  const laid = laidLines();
  return {
    heights,
    items: [...areas(), ...lines(laid), ...streams(heights), ...tarns(), ...pools(), ...points(laid)],
  };
}

export function writeDemo(folder: string): void {
  const { heights, items } = makeDemo();
  mkdirSync(folder, { recursive: true });
  const raster = {
    crs: CRS,
    west: WEST,
    north: SOUTH + SIDE * CELL,
    cell: CELL,
    columns: SIDE,
    rows: SIDE,
    data: Float32Array.from(heights.z),
  };
  writeFileSync(
    `${folder}/elevation.tif`,
    writeGeoTiff(raster, (bytes) => deflateSync(bytes, { level: 9 })),
  );
  const head = '{"type":"FeatureCollection","name":"Ulvarrow Heights",';
  const crs = '"crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::32630"}},';
  const body = items.map((item) => JSON.stringify(item)).join(',\n');
  writeFileSync(`${folder}/features.geojson`, `${head}${crs}"features":[\n${body}\n]}\n`);
}

function properties(drawn: Drawn): Record<string, unknown> {
  const { id, kind, name, doubt, row, rowPlace } = drawn;
  return {
    id,
    kind,
    ...(name === undefined ? {} : { name }),
    ...doubt,
    ...(row === undefined ? {} : { row, rowPlace }),
  };
}

function areas(): Item[] {
  return AREAS.map((area) => {
    // a planted wood has straight edges, and its edge is mapped as a line too
    const ring = area.kind === 'forest' ? area.outline : soften(wobble(area.outline));
    return item(properties(area), 'Polygon', [shift(closed(ring))]);
  });
}

/** The lines as they lie: ways rounded, and their ends brought on to the way they leave. */
function laidLines(): Map<string, Point[]> {
  const laid = new Map<string, Point[]>();
  for (const { id, line, soft } of LINES) laid.set(id, soft ? soften(line, false) : [...line]);
  const ways = LINES.filter(({ kind }) => WAYS.includes(kind));
  ways.forEach(({ id }, i) => {
    const line = laid.get(id)!;
    for (const end of [0, line.length - 1])
      for (const other of ways.slice(0, i)) {
        const { at, away } = nearestOnLine(line[end]!, laid.get(other.id)!);
        if (away < 60) line[end] = at;
      }
  });
  return laid;
}

const WAYS = ['track', 'path', 'right-of-way'];

function lines(laid: ReadonlyMap<string, Point[]>): Item[] {
  return LINES.map((line) => item(properties(line), 'LineString', shift(laid.get(line.id)!)));
}

function points(laid: ReadonlyMap<string, Point[]>): Item[] {
  return POINTS.map((point) => {
    const at = point.where === undefined ? point.at : crossing(laid, point.where, point.at);
    return item(properties(point), 'Point', shift([at])[0]);
  });
}

/** Where two lines cross, the crossing nearest to a place. */
function crossing(laid: ReadonlyMap<string, Point[]>, [a, b]: readonly [string, string], near: Point): Point {
  const other = laid.get(b)!;
  let best: Point = near;
  let least = Number.POSITIVE_INFINITY;
  const line = laid.get(a)!;
  for (let i = 1; i < line.length; i++) {
    const [p, q] = [line[i - 1]!, line[i]!];
    for (let k = 0; k <= 20; k++) {
      const at: Point = [p[0] + ((q[0] - p[0]) * k) / 20, p[1] + ((q[1] - p[1]) * k) / 20];
      const away = nearestOnLine(at, other).away + 0.01 * distance(at, near);
      if (away < least) {
        least = away;
        best = at;
      }
    }
  }
  return nearestOnLine(best, other).at;
}

function streams(heights: Heights): Item[] {
  const drainage = drain(heights);
  const wet = TARNS.map((tarn) => outletOf(heights, drainage, tarn));
  const net = traceStreams(heights, drainage, wet);
  const named = new Map<number, (typeof STREAM_NAMES)[number]>();
  for (const name of STREAM_NAMES) {
    const away = net.streams.map((s) => nearestOnLine(name.near, s.points).away);
    const best = away.indexOf(Math.min(...away));
    if (away[best]! < 120 && !named.has(best)) named.set(best, name);
  }
  const made: Item[] = [];
  net.streams.forEach((stream, i) => {
    const name = named.get(i);
    const id = name?.id ?? `stream-${i + 1}`;
    const kind = stream.small ? 'small-stream' : 'stream';
    made.push(item({ id, kind, ...(name && { name: name.name }) }, 'LineString', shift(stream.points)));
    if (stream.begins && name) {
      const doubt = id === 'oskle-sike' || id === 'hathen-sike' ? {} : { head: 'spring-fed' };
      made.push(
        item(
          { id: `${id}-head`, kind: 'stream-end', name: `head of ${name.name}`, ...doubt },
          'Point',
          shift([stream.points[0]!])[0],
        ),
      );
    }
  });
  net.confluences.forEach((at, i) => {
    const large = net.streams.some((s) => !s.small && nearestOnLine(at, s.points).away < 12);
    if (large) made.push(item({ id: `meeting-${i + 1}`, kind: 'confluence' }, 'Point', shift([at])[0]));
  });
  return made;
}

/** The last cell of a tarn on the way of its water. */
function outletOf(heights: Heights, drainage: Drainage, { centre, half }: Water): number {
  const inside = (i: number): boolean => {
    const [x, y] = placeOf(heights, i);
    return length((x - centre[0]) / half[0], (y - centre[1]) / half[1]) < 1;
  };
  let i = cellOf(heights, centre);
  while (inside(drainage.receiver[i]!)) i = drainage.receiver[i]!;
  return i;
}

function tarns(): Item[] {
  const names = ['Threll Water', 'Little Threll'];
  return TARNS.map(({ centre, half }, k) => {
    const ring: Point[] = CIRCLE.map(([x, y]) => [centre[0] + half[0] * x, centre[1] + half[1] * y]);
    const id = names[k]!.toLowerCase().replace(' ', '-');
    return item({ id, kind: 'tarn', name: names[k] }, 'Polygon', [shift(closed(ring))]);
  });
}

/** Peat pools: at the lattice places of the hags where the noise says so. */
function pools(): Item[] {
  const made: Item[] = [];
  for (const [west, south, east, north] of [
    [2150, 4520, 2600, 4800],
    [1100, 4900, 1450, 5180],
  ] as const)
    for (let x = west; x < east; x += 60)
      for (let y = south; y < north; y += 60) {
        if (roughness(x, y, 90, 0.5, SEED + 77) < 0.12) continue;
        const at: Point = [
          x + 20 * roughness(x, y, 7, 0.5, SEED + 78),
          y + 20 * roughness(x, y, 7, 0.5, SEED + 79),
        ];
        made.push(item({ id: `pool-${made.length + 1}`, kind: 'pool' }, 'Point', shift([at])[0]));
      }
  return made;
}

/** Sixteen directions, sines and cosines from square roots alone. */
const CIRCLE: readonly Point[] = (() => {
  const c = Math.sqrt((1 + Math.SQRT1_2) / 2);
  const s = Math.sqrt((1 - Math.SQRT1_2) / 2);
  const eighth: Point[] = [
    [1, 0],
    [c, s],
    [Math.SQRT1_2, Math.SQRT1_2],
    [s, c],
  ];
  const quarter = (p: Point): Point => [-p[1], p[0]];
  const ring: Point[] = [];
  let part = eighth;
  for (let k = 0; k < 4; k++) {
    ring.push(...part);
    part = part.map(quarter);
  }
  return ring;
})();

function item(props: Record<string, unknown>, type: Item['geometry']['type'], coordinates: unknown): Item {
  return { type: 'Feature', properties: props, geometry: { type, coordinates } };
}

function shift(points: readonly Point[]): Point[] {
  return points.map(([x, y]) => [Math.round((WEST + x) * 10) / 10, Math.round((SOUTH + y) * 10) / 10]);
}

function closed(ring: readonly Point[]): Point[] {
  return [...ring, ring[0]!];
}

/** Vertices moved up to some 25 m, so that a drawn outline looks grown. */
function wobble(ring: readonly Point[]): Point[] {
  return ring.map(([x, y]) => [
    x + 12 * roughness(x, y, 50, 0.5, SEED + 90),
    y + 12 * roughness(x, y, 50, 0.5, SEED + 91),
  ]);
}

/** Corners cut twice (Chaikin 1974). */
function soften(points: readonly Point[], ring = true): Point[] {
  let from: readonly Point[] = points;
  for (let round = 0; round < 2; round++) {
    const cut: Point[] = ring ? [] : [from[0]!];
    for (let i = 0; i < from.length - (ring ? 0 : 1); i++) {
      const a = from[i]!;
      const b = from[(i + 1) % from.length]!;
      cut.push(
        [0.75 * a[0] + 0.25 * b[0], 0.75 * a[1] + 0.25 * b[1]],
        [0.25 * a[0] + 0.75 * b[0], 0.25 * a[1] + 0.75 * b[1]],
      );
    }
    if (!ring) cut.push(from[from.length - 1]!);
    from = cut;
  }
  return [...from];
}
