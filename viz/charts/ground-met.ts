import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Point } from '../../src/math/plane.ts';
import { lineLength, pointAlong } from '../../src/math/plane.ts';
import type { ReportFeature } from '../../src/report/report.ts';

/** A stretch of a route over one kind of ground, metres along. */
export interface GroundStretch {
  readonly kind: FeatureKind;
  readonly from: number;
  readonly to: number;
}

/** The kinds of area that a line crosses; where areas overlap, the one listed last. Stretches under 1 % of the line are left out. */
export function groundMet(line: readonly Point[], features: readonly ReportFeature[]): GroundStretch[] {
  const areas = features.filter((f) => f.geometry.type === 'area');
  const total = lineLength(line);
  const steps = 200;
  const stretches: { kind: FeatureKind; from: number; to: number }[] = [];
  let open: { kind: FeatureKind; from: number; to: number } | null = null;
  for (let i = 0; i < steps; i++) {
    const p = pointAlong(line, ((i + 0.5) / steps) * total);
    const over = areas.findLast((f) => f.geometry.type === 'area' && inside(p, f.geometry.rings));
    const to = ((i + 1) / steps) * total;
    if (open !== null && over?.kind === open.kind) open.to = to;
    else {
      open = over === undefined ? null : { kind: over.kind, from: (i / steps) * total, to };
      if (open !== null) stretches.push(open);
    }
  }
  return stretches.filter((s) => s.to - s.from > total * 0.01);
}

/** Even-odd rule over all rings: holes are rings too. */
export function inside(p: Point, rings: readonly (readonly Point[])[]): boolean {
  let odd = false;
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const a = ring[i]!;
      const b = ring[j]!;
      if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0])
        odd = !odd;
    }
  }
  return odd;
}
