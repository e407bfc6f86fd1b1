import type { Point } from '../../src/math/plane.ts';

/** A way to lay the same scenario elsewhere: turned, mirrored and scaled. The first is the scenario as written. */
export interface Lay {
  readonly name: string;
  readonly scale: number;
  at(p: Point): Point;
}

export function layOf(name: string, degrees: number, scale: number, mirror = false): Lay {
  const a = (degrees * Math.PI) / 180;
  const s = Math.sin(a);
  const c = Math.cos(a);
  return {
    name,
    scale,
    at: ([x, y]) => {
      const e = (mirror ? -x : x) * scale;
      const n = y * scale;
      // clockwise, as bearings go; to a millimetre, so that straight lines stay straight
      return [Math.round((e * c + n * s) * 1000) / 1000, Math.round((n * c - e * s) * 1000) / 1000];
    },
  };
}

export const AS_WRITTEN = layOf('as written', 0, 1);

/** Three rotated and rescaled variants: the inequalities must hold in each. */
export const VARIANTS: readonly Lay[] = [
  layOf('turned by 73°, ×1.3', 73, 1.3),
  layOf('turned by 161°, ×0.8', 161, 0.8),
  layOf('mirrored, turned by 287°, ×1.15', 287, 1.15, true),
];

export const ALL_LAYS: readonly Lay[] = [AS_WRITTEN, ...VARIANTS];
