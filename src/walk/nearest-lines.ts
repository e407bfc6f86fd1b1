import { type Point, squareToSegment } from '../math/plane.ts';
import type { Line } from './world.ts';

/** So many lines on a leg, and landmarks, are told apart at most; on a crowded map the nearest to the plan. Common practice, no source. */
export const MOST_TOLD_APART = 400;

/** Of these lines no more than `most`, those that come nearest to a path, in their order. */
export function nearestLines(lines: readonly Line[], path: readonly Point[], most: number): Line[] {
  if (lines.length <= most) return [...lines];
  const away = new Map(lines.map((l) => [l, squareToPath(l, path)]));
  const kept = [...lines].sort((a, b) => away.get(a)! - away.get(b)! || a.index - b.index).slice(0, most);
  return kept.sort((a, b) => a.index - b.index);
}

function squareToPath({ x, y }: Line, path: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < path.length; i++) {
    const [east, north] = path[i - 1]!;
    const dx = path[i]![0] - east;
    const dy = path[i]![1] - north;
    for (let k = 0; k < x.length; k++) {
      const d = squareToSegment(x[k]! - east, y[k]! - north, dx, dy);
      if (d < least) least = d;
    }
  }
  return least;
}
