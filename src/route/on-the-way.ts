import { crossingsOf } from '../features/crossings.ts';
import type { Feature } from '../features/feature.ts';
import { distance, nearestOnLine, type Point } from '../math/plane.ts';
import { awayFrom, lineOf } from './map-line.ts';

/** How far past the end a line may lie and still be called a catching feature of a plan, metres. */
export const FURTHEST_CATCH = 500;

/** Metres along a path at which a feature is met: crossed, or passed nearest. */
export function metAt(path: readonly Point[], feature: Feature): { atMetres: number; away: number } {
  const line = lineOf(feature);
  if (!line) {
    const g = feature.geometry;
    const near = nearestOnLine(g.type === 'point' ? g.at : path[0]!, path);
    return { atMetres: near.along, away: near.away };
  }
  const crossed = crossingsOf(path, line).map((at) => nearestOnLine(at, path).along);
  if (crossed.length > 0) return { atMetres: Math.min(...crossed), away: 0 };
  return passedAt(path, feature, line);
}

function passedAt(path: readonly Point[], feature: Feature, line: readonly Point[]) {
  let best = { atMetres: 0, away: awayFrom(feature, path[0]!) };
  let walked = 0;
  for (let i = 1; i < path.length; i++) {
    walked += distance(path[i - 1]!, path[i]!);
    const away = awayFrom(feature, path[i]!);
    if (away < best.away) best = { atMetres: walked, away };
  }
  for (const p of line) {
    const near = nearestOnLine(p, path);
    if (near.away < best.away) best = { atMetres: near.along, away: near.away };
  }
  return best;
}

/** Metres from the end of a path, straight on, to a line; null when it is not ahead within 500 m. */
export function catchBeyond(path: readonly Point[], feature: Feature): number | null {
  const line = lineOf(feature);
  if (!line) return null;
  const end = path[path.length - 1]!;
  let k = path.length - 2;
  while (k > 0 && distance(path[k]!, end) < 1) k--;
  const before = path[k]!;
  const d = distance(before, end);
  if (d === 0) return null;
  const far: Point = [
    end[0] + ((end[0] - before[0]) / d) * FURTHEST_CATCH,
    end[1] + ((end[1] - before[1]) / d) * FURTHEST_CATCH,
  ];
  const beyond = crossingsOf([end, far], line).map((at) => distance(end, at));
  return beyond.length === 0 ? null : Math.min(...beyond);
}
