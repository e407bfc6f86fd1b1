import type { MappedGround } from '../cost/mapped-ground.ts';
import { distance, type Point } from '../math/plane.ts';
import { crossingShare } from './handrail-leg.ts';
import type { Leg } from './leg.ts';

/** How wide an obstacle may be boxed, metres, and in what steps the width is chosen. Common practice, no source. */
const NARROWEST = 25;
const WIDEST = 300;

/** A leg round an obstacle: square out `metres` to the side, along, square back. */
export function boxLeg(from: Point, to: Point, side: 'left' | 'right', metres: number): Leg {
  const d = distance(from, to);
  const sign = side === 'left' ? 1 : -1;
  const outX = (-(to[1] - from[1]) / d) * sign * metres;
  const outY = ((to[0] - from[0]) / d) * sign * metres;
  const path: Point[] = [from, [from[0] + outX, from[1] + outY], [to[0] + outX, to[1] + outY], to];
  return { technique: 'box', from, to, path, side, offsetMetres: metres, ticks: [], fine: false };
}

/** The narrowest box that keeps off every barrier between two places; null when none up to 300 m does. */
export function narrowestBox(
  ground: MappedGround,
  from: Point,
  to: Point,
  sides: readonly ('left' | 'right')[],
): Leg | null {
  for (let metres = NARROWEST; metres <= WIDEST; metres += NARROWEST) {
    for (const side of sides) {
      const leg = boxLeg(from, to, side, metres);
      if (!crossesBarrier(ground, leg.path)) return leg;
    }
  }
  return null;
}

const BARRIERS: ReadonlySet<string> = new Set(['lake', 'cliff', 'steep-ground', 'out-of-bounds']);

/** Whether a line crosses the edge of a mapped barrier. */
export function crossesBarrier(ground: MappedGround, path: readonly Point[]): boolean {
  return barrierOn(ground, path) !== null;
}

/** The first barrier whose edge a line crosses, and the metres to it. */
export function barrierOn(
  ground: MappedGround,
  path: readonly Point[],
): { feature: string; atMetres: number } | null {
  let first: { feature: string; atMetres: number } | null = null;
  for (const feature of ground.features) {
    if (!BARRIERS.has(feature.kind)) continue;
    const g = feature.geometry;
    const lines = g.type === 'area' ? g.rings : g.type === 'line' ? [g.points] : [];
    for (const line of lines) {
      let walked = 0;
      for (let i = 1; i < path.length; i++) {
        const a = path[i - 1]!;
        const b = path[i]!;
        for (let j = 1; j < line.length; j++) {
          const share = crossingShare(a, b, line[j - 1]!, line[j]!);
          if (share === null) continue;
          const at = walked + share * distance(a, b);
          if (first === null || at < first.atMetres) first = { feature: feature.id, atMetres: at };
        }
        walked += distance(a, b);
      }
    }
  }
  return first;
}
