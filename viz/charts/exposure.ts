import { distanceToSegment, lineLength, type Point, pointAlong } from '../../src/math/plane.ts';
import type { ReportFeature } from '../../src/report/report.ts';
import { inside } from './ground-met.ts';

/** Metres along a line from where to where a mapped drop lies near. */
export interface Exposed {
  readonly from: number;
  readonly to: number;
}

/** Metres within which a drop is told of: as on the route cards. Common practice, no source. */
export const NEAR_DROP = 50;
const STEP = 10;

/** The stretches of a line that lie within `NEAR_DROP` of a mapped cliff or steep ground, to the nearest 10 m. */
export function exposedStretches(line: readonly Point[], features: readonly ReportFeature[]): Exposed[] {
  const drops = features.filter((f) => f.kind === 'cliff' || f.kind === 'steep-ground');
  if (drops.length === 0) return [];
  const total = lineLength(line);
  const count = Math.max(1, Math.ceil(total / STEP));
  const stretches: { from: number; to: number }[] = [];
  for (let i = 0; i < count; i++) {
    const [from, to] = [(i / count) * total, ((i + 1) / count) * total];
    if (!drops.some((f) => isNear(pointAlong(line, (from + to) / 2), f))) continue;
    const last = stretches.at(-1);
    if (last?.to === from) last.to = to;
    else stretches.push({ from, to });
  }
  return stretches;
}

function isNear(at: Point, { geometry: g }: ReportFeature): boolean {
  if (g.type === 'point') return nearLine(at, [g.at, g.at]);
  if (g.type === 'line') return nearLine(at, g.points);
  return g.rings.some((ring) => nearLine(at, ring)) || inside(at, g.rings);
}

function nearLine(at: Point, points: readonly Point[]): boolean {
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const away = (k: 0 | 1) => Math.max(Math.min(a[k], b[k]) - at[k], at[k] - Math.max(a[k], b[k]));
    if (away(0) > NEAR_DROP || away(1) > NEAR_DROP) continue;
    if (distanceToSegment(at, a, b) <= NEAR_DROP) return true;
  }
  return false;
}
