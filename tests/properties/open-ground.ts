import type { Point } from '../../src/math/plane.ts';
import type { SkillLevel } from '../../src/party/party.ts';
import type { Leg, Route } from '../../src/route/leg.ts';
import type { Lay } from '../scenarios/turned.ts';
import {
  BENCH_DAY,
  type Bench,
  benchParty,
  benchWorld,
  leg,
  line,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';

/** Smooth ground that is not the same in any two directions, once laid. */
export function hilly(lay: Lay, half = 1600) {
  const [ux, uy] = lay.at([0.8, 0.6]);
  return plainTerrain(half, 40, (e, n) => 350 + 0.07 * (e * ux + n * uy));
}

/** A stream across the way at 600 m, an attack point on it, the target 200 m beyond; a path leads to the stream. */
export function smallTask(lay: Lay, more: Partial<Bench> & { skill?: SkillLevel; radius?: number } = {}) {
  const at = (x: number, y: number): Point => lay.at([x, y]);
  const certain = { exists: 1, positionMetres: 0 };
  const { skill = 'competent', radius = 15, features = [], ...bench } = more;
  const stream = line('stream', 'stream', [at(-900, 600), at(900, 600)], certain);
  const path = line('path', 'path', [at(0, 0), at(80, 300), at(0, 600)], certain);
  const fold = spot('fold', 'fold', at(150, 600), { ...certain, rangeMetres: 40, contrast: 1 });
  const target = spot('target', 'boulder', at(150, 800), { ...certain, sweepWidthMetres: 2 * radius });
  const swap = new Map(features.map((f) => [f.id, f]));
  const mapped = [stream, path, fold, target].map((f) => swap.get(f.id) ?? f);
  const extra = features.filter((f) => !mapped.some((m) => m.id === f.id));
  const world = benchWorld({
    terrain: hilly(lay),
    start: at(0, 0),
    target: swap.get('target') ?? target,
    party: benchParty(skill),
    conditions: { ...BENCH_DAY, ground: 'dry' },
    ...bench,
    features: [...mapped, ...extra],
  });
  const last: Leg = leg('bearing', at(150, 600), at(150, 800), { toFeature: 'target', fine: true });
  const byPath: Route = route(
    leg('handrail', at(0, 0), at(0, 600), { line: 'path', path: [at(0, 0), at(80, 300), at(0, 600)] }),
    leg('handrail', at(0, 600), at(150, 600), { line: 'stream', toFeature: 'fold' }),
    last,
  );
  const aimedOff: Route = route(
    leg('aim-off', at(0, 0), at(60, 600), {
      line: 'stream',
      offsetMetres: 90,
      side: 'left',
      wanted: at(150, 600),
    }),
    leg('handrail', at(60, 600), at(150, 600), { line: 'stream', toFeature: 'fold' }),
    last,
  );
  const straight: Route = route(leg('bearing', at(0, 0), at(150, 800), { toFeature: 'target' }));
  return { world, at, byPath, aimedOff, straight };
}

/** A party that makes no error of any kind. */
export const NO_ERRORS = {
  bearingDegrees: 0,
  wanderMetres: 0,
  paceShare: 0,
  timingShare: 0,
  driftDegrees: 0,
  contourMetres: { mean: 0, sd: 0 },
  junctionShare: 0,
  handrailLossPerKm: 0,
  speedShare: 0,
} as const;

export type SmallTask = ReturnType<typeof smallTask>;
