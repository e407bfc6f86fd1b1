import type { Point } from '../../src/math/plane.ts';
import type { Report } from '../../src/report/report.ts';

/** A rectangle in metres of the terrain's CRS. */
export interface Bounds {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** How metres become px: north up, one scale in both directions. */
export interface View {
  readonly bounds: Bounds;
  readonly width: number;
  readonly height: number;
  /** px per metre. */
  readonly scale: number;
  x(east: number): number;
  y(north: number): number;
}

export function viewOf(bounds: Bounds, width: number): View {
  const scale = width / (bounds.east - bounds.west);
  return {
    bounds,
    width,
    height: Math.round((bounds.north - bounds.south) * scale),
    scale,
    x: (east) => (east - bounds.west) * scale,
    y: (north) => (bounds.north - north) * scale,
  };
}

export function boundsOf(points: Iterable<Point>): Bounds {
  let west = Number.POSITIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (const [e, n] of points) {
    if (e < west) west = e;
    if (e > east) east = e;
    if (n < south) south = n;
    if (n > north) north = n;
  }
  return { west, south, east, north };
}

/** The bounds with a margin on each side, then widened until width / height lies within the two aspects. */
export function framed(b: Bounds, margin: number, aspects: { low: number; high: number }): Bounds {
  let wide = b.east - b.west + 2 * margin;
  let tall = b.north - b.south + 2 * margin;
  if (wide / tall < aspects.low) wide = tall * aspects.low;
  if (wide / tall > aspects.high) tall = wide / aspects.high;
  const e = (b.east + b.west) / 2;
  const n = (b.north + b.south) / 2;
  return { west: e - wide / 2, east: e + wide / 2, south: n - tall / 2, north: n + tall / 2 };
}

/** The bounds moved so that they show as little as may be of what lies beyond the ground. */
export function within(b: Bounds, ground: Bounds): Bounds {
  const shift = (low: number, high: number, from: number, to: number): number => {
    if (high - low >= to - from) return (from + to) / 2 - (low + high) / 2;
    return low < from ? from - low : high > to ? to - high : 0;
  };
  const e = shift(b.west, b.east, ground.west, ground.east);
  const n = shift(b.south, b.north, ground.south, ground.north);
  return { west: b.west + e, east: b.east + e, south: b.south + n, north: b.north + n };
}

/** The rectangle that the report's rasters cover. */
export function groundBounds(report: Report): Bounds {
  const { origin, cell, columns, rows } = report.ground;
  return {
    west: origin[0],
    north: origin[1],
    east: origin[0] + columns * cell,
    south: origin[1] - rows * cell,
  };
}

/** What two rectangles share; the first where they share nothing. */
export function shared(a: Bounds, b: Bounds): Bounds {
  if (!touches(a, b)) return a;
  return {
    west: Math.max(a.west, b.west),
    east: Math.min(a.east, b.east),
    south: Math.max(a.south, b.south),
    north: Math.min(a.north, b.north),
  };
}

export function union(a: Bounds, b: Bounds): Bounds {
  return {
    west: Math.min(a.west, b.west),
    south: Math.min(a.south, b.south),
    east: Math.max(a.east, b.east),
    north: Math.max(a.north, b.north),
  };
}

export function touches(a: Bounds, b: Bounds): boolean {
  return a.west <= b.east && b.west <= a.east && a.south <= b.north && b.south <= a.north;
}

/** What the task is about: its two ends and every route, not the whole ground. */
export function taskBounds(report: Report): Bounds {
  return boundsOf([
    report.task.start.at,
    report.task.target.at,
    ...report.candidates.flatMap((c) => [...c.line, ...c.legs.flatMap((l) => l.path)]),
  ]);
}
