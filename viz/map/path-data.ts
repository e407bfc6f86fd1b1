import type { Point } from '../../src/math/plane.ts';
import { px } from '../theme/figure.ts';
import { simplified } from './simplify.ts';
import type { View } from './view.ts';

/** Path data of a line in metres, in px of the view, without the points that do not show. */
export function pathData(points: readonly Point[], view: View, tolerance = 0.25): string {
  const shown = simplified(
    points.map((p) => [view.x(p[0]), view.y(p[1])] as const),
    tolerance,
  );
  return shown.map((p, i) => `${i === 0 ? 'M' : 'L'}${px(p[0])},${px(p[1])}`).join('');
}

export function ringsData(rings: readonly (readonly Point[])[], view: View): string {
  return rings.map((r) => `${pathData(r, view)}Z`).join('');
}
