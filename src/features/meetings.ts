import Flatbush from 'flatbush';
import { distance, distanceToSegment, nearestShare, type Point } from '../math/plane.ts';
import { type Chained, chainedPoint } from './chainage.ts';

type Report = (line: number, along: number, at: Point) => void;

/** Reports every line at every place where it crosses, touches or (an end within `tolerance`) meets another line or itself. */
export function meetings(lines: readonly Chained[], tolerance: number, report: Report): void {
  let count = 0;
  for (const { points } of lines) count += points.length - 1;
  if (count === 0) return;

  const lineOf = new Int32Array(count);
  const segmentOf = new Int32Array(count);
  const tree = new Flatbush(count);
  let k = 0;
  lines.forEach(({ points }, line) => {
    for (let s = 1; s < points.length; s++, k++) {
      const [ax, ay] = points[s - 1]!;
      const [bx, by] = points[s]!;
      lineOf[k] = line;
      segmentOf[k] = s - 1;
      tree.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
    }
  });
  tree.finish();

  for (let i = 0; i < count; i++) {
    const line = lines[lineOf[i]!]!;
    const a = line.points[segmentOf[i]!]!;
    const b = line.points[segmentOf[i]! + 1]!;
    const found = tree.search(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
      // neighbours on one line always touch
      (j) => j > i && (lineOf[j] !== lineOf[i] || segmentOf[j]! > segmentOf[i]! + 1),
    );
    for (const j of found.sort((x, y) => x - y)) {
      const other = lines[lineOf[j]!]!;
      const c = other.points[segmentOf[j]!]!;
      const d = other.points[segmentOf[j]! + 1]!;
      const cut = crossing(a, b, c, d);
      if (cut === null) continue;
      const along = line.along[segmentOf[i]!]! + cut.first * distance(a, b);
      const otherAlong = other.along[segmentOf[j]!]! + cut.second * distance(c, d);
      const doubtful = cut.flat || touchesVertex(cut.first) || touchesVertex(cut.second);
      if (doubtful && line !== other && runTogether(line, along, other, otherAlong, tolerance)) continue;
      const at: Point = [a[0] + (b[0] - a[0]) * cut.first, a[1] + (b[1] - a[1]) * cut.first];
      report(lineOf[i]!, snapToEnd(line, along), at);
      report(lineOf[j]!, snapToEnd(other, otherAlong), at);
    }
  }

  lines.forEach((line, own) => {
    const last = line.points.length - 1;
    for (const v of [0, last]) {
      const at = line.points[v]!;
      const along = line.along[v]!;
      const found = tree.search(at[0] - tolerance, at[1] - tolerance, at[0] + tolerance, at[1] + tolerance);
      for (const j of found.sort((x, y) => x - y)) {
        const other = lines[lineOf[j]!]!;
        const c = other.points[segmentOf[j]!]!;
        const d = other.points[segmentOf[j]! + 1]!;
        if (distanceToSegment(at, c, d) > tolerance) continue;
        const t = nearestShare(at, c, d);
        const otherAlong = other.along[segmentOf[j]!]! + t * distance(c, d);
        if (lineOf[j] === own && Math.abs(otherAlong - along) <= 4 * tolerance) continue;
        report(lineOf[j]!, snapToEnd(other, otherAlong), [
          c[0] + (d[0] - c[0]) * t,
          c[1] + (d[1] - c[1]) * t,
        ]);
      }
    }
  });
}

interface Cut {
  /** Shares along the two segments. */
  readonly first: number;
  readonly second: number;
  /** They meet at less than some 3°. */
  readonly flat: boolean;
}

/** Where two segments cross or touch; null when they do not or are parallel. */
function crossing(a: Point, b: Point, c: Point, d: Point): Cut | null {
  const rx = b[0] - a[0];
  const ry = b[1] - a[1];
  const sx = d[0] - c[0];
  const sy = d[1] - c[1];
  const cross = rx * sy - ry * sx;
  const squares = (rx * rx + ry * ry) * (sx * sx + sy * sy);
  if (cross * cross <= 1e-12 * squares) return null;
  const qx = c[0] - a[0];
  const qy = c[1] - a[1];
  const first = (qx * sy - qy * sx) / cross;
  const second = (qx * ry - qy * rx) / cross;
  return first < 0 || first > 1 || second < 0 || second > 1
    ? null
    : { first, second, flat: cross * cross < 0.0025 * squares };
}

function touchesVertex(share: number): boolean {
  return share < 1e-6 || share > 1 - 1e-6;
}

/** Two lines drawn along each other (a path beside a wall) touch at every vertex; only where they part or join is a place. */
function runTogether(a: Chained, aAlong: number, b: Chained, bAlong: number, tolerance: number): boolean {
  const step = 4 * tolerance;
  const before = chainedPoint(a, aAlong - step);
  const after = chainedPoint(a, aAlong + step);
  const low = chainedPoint(b, bAlong - step);
  const high = chainedPoint(b, bAlong + step);
  // less than some 3° apart
  const near = (p: Point, q: Point) => distance(p, q) <= 0.05 * step;
  return (near(before, low) && near(after, high)) || (near(before, high) && near(after, low));
}

/** Rounding must not turn an end into a place just before it. */
function snapToEnd({ along }: Chained, metres: number): number {
  const total = along[along.length - 1]!;
  return metres < 0.01 ? 0 : metres > total - 0.01 ? total : metres;
}
