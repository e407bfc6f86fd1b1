import { distance, type Point } from '../math/plane.ts';
import type { Feature } from './feature.ts';
import type { LineFamily } from './line-kinds.ts';

/** A line with the metres from its first vertex to each of its vertices. */
export interface Chained {
  readonly feature: Feature;
  readonly family: LineFamily;
  readonly points: readonly Point[];
  readonly along: Float64Array;
}

export function chainages(points: readonly Point[]): Float64Array {
  const along = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) along[i] = along[i - 1]! + distance(points[i - 1]!, points[i]!);
  return along;
}

/** Like `pointAlong`, by bisection: for lines of many vertices asked often. Past an end the end is given. */
export function chainedPoint({ points, along }: Pick<Chained, 'points' | 'along'>, metres: number): Point {
  let low = 0;
  let high = points.length - 1;
  if (metres <= 0) return points[0]!;
  if (metres >= along[high]!) return points[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (along[middle]! <= metres) low = middle;
    else high = middle;
  }
  const a = points[low]!;
  const b = points[high]!;
  const t = (metres - along[low]!) / (along[high]! - along[low]!);
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}
