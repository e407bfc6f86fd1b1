/** A place in the terrain's projected CRS: metres east, metres north. */
export type Point = readonly [east: number, north: number];

/** Length of a vector in metres. `Math.hypot` is not the same on every engine; this is. */
export function length(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}

export function distance(a: Point, b: Point): number {
  return length(b[0] - a[0], b[1] - a[1]);
}

/** Positions enter the engine on a 1/1024 m lattice, so that a last-bit difference of a projection library cannot spread. */
export function snapMetres(value: number): number {
  return Math.round(value * 1024) / 1024;
}

export function snapPoint(p: Point): Point {
  return [snapMetres(p[0]), snapMetres(p[1])];
}

/** Share 0..1 along the segment a→b of the place nearest to p. A segment of no length gives 0. */
export function nearestShare(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const square = dx * dx + dy * dy;
  if (square === 0) return 0;
  const t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square;
  return t < 0 ? 0 : t > 1 ? 1 : t;
}

/** Metres from p to the segment a→b. */
export function distanceToSegment(p: Point, a: Point, b: Point): number {
  const t = nearestShare(p, a, b);
  return length(a[0] + (b[0] - a[0]) * t - p[0], a[1] + (b[1] - a[1]) * t - p[1]);
}

/** Length of a polyline in metres. */
export function lineLength(points: readonly Point[]): number {
  let sum = 0;
  for (let i = 1; i < points.length; i++) sum += distance(points[i - 1]!, points[i]!);
  return sum;
}

/** The point `along` metres from the first vertex; before the start or past the end the end vertex is given. */
export function pointAlong(points: readonly Point[], along: number): Point {
  let left = along;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const d = distance(a, b);
    if (left <= d && d > 0) {
      const t = left < 0 ? 0 : left / d;
      return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    }
    left -= d;
  }
  return points[points.length - 1]!;
}

/** The nearest place of a polyline: its metres along, its point and the metres away. */
export function nearestOnLine(
  p: Point,
  points: readonly Point[],
): { along: number; at: Point; away: number } {
  let best = { along: 0, at: points[0]!, away: distance(p, points[0]!) };
  let walked = 0;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const t = nearestShare(p, a, b);
    const at: Point = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    const away = distance(p, at);
    const d = distance(a, b);
    if (away < best.away) best = { along: walked + t * d, at, away };
    walked += d;
  }
  return best;
}

/** The part of a polyline between two distances along it; reversed when `to` comes before `from`. */
export function lineBetween(points: readonly Point[], from: number, to: number): Point[] {
  const low = from < to ? from : to;
  const high = from < to ? to : from;
  const part: Point[] = [pointAlong(points, low)];
  let walked = 0;
  for (let i = 1; i < points.length; i++) {
    walked += distance(points[i - 1]!, points[i]!);
    if (walked > low && walked < high) part.push(points[i]!);
  }
  part.push(pointAlong(points, high));
  return from <= to ? part : part.reverse();
}

/** Square of the distance from (px, py) to the segment from the origin to (dx, dy), in the units given. */
export function squareToSegment(px: number, py: number, dx: number, dy: number): number {
  const sq = dx * dx + dy * dy;
  let t = sq > 0 ? (px * dx + py * dy) / sq : 0;
  t = t < 0 ? 0 : t > 1 ? 1 : t;
  const ex = dx * t - px;
  const ey = dy * t - py;
  return ex * ex + ey * ey;
}
