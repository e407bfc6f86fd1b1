import { MOST_ERROR } from '../conditions/factors.ts';
import { sideSlopePace, surfaceFactors } from '../conditions/underfoot.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { cellAt, sample } from '../grid/raster.ts';
import { RADIANS } from '../math/bearing.ts';
import { distance, length, type Point } from '../math/plane.ts';
import { alongSd, type LegMultipliers, lateralSd, marksCanBeHad } from '../party/straight-leg.ts';
import { SURFACES } from '../terrain/terrain.ts';
import { airAt } from './air.ts';
import type { Errand } from './drawn.ts';

/** What a straight leg across the map meets, averaged over places along it. */
export interface LegGround {
  readonly by: LegMultipliers;
  /** Whether marks to walk to can be had for most of it. */
  readonly marks: boolean;
  /** Mean rise per metre towards the right-hand side of the walk. */
  readonly sideSlope: number;
}

/** Scatter of a straight leg's end, metres; `drift` is the mean shift to the right, metres (negative to the left). */
export interface Scatter {
  readonly lateral: number;
  readonly along: number;
  readonly drift: number;
}

/** Places looked at on a leg: one per 25 m, 5 to 41. */
function looksOn(metres: number): number {
  return Math.min(40, Math.max(4, Math.ceil(metres / 25)));
}

/** M and ρ of a straight leg from a to b, and its side slope. */
export function legGround(ground: MappedGround, errand: Errand, a: Point, b: Point): LegGround {
  const d = distance(a, b);
  const n = looksOn(d);
  const rightEast = d === 0 ? 0 : (b[1] - a[1]) / d;
  const rightNorth = d === 0 ? 0 : -(b[0] - a[0]) / d;
  const { relief, cover, terrain } = ground;
  let bearing = 0;
  let pace = 0;
  let wander = 0;
  let surfacePace = 0;
  let side = 0;
  let marked = 0;
  for (let i = 0; i <= n; i++) {
    const x = a[0] + ((b[0] - a[0]) * i) / n;
    const y = a[1] + ((b[1] - a[1]) * i) / n;
    const cell = cellAt(cover, x, y);
    const under = surfaceFactors(SURFACES[cell < 0 ? 1 : cover.data[cell]!] ?? 'grass');
    const air = airAt(errand.conditions, sample(terrain.elevation, x, y));
    const day = air.offPath;
    const east = sample(relief.eastward, x, y);
    const north = sample(relief.northward, x, y);
    const slope = length(east, north);
    const across = east * rightEast + north * rightNorth;
    bearing += day.bearing;
    wander += under.wander;
    const sideways = slope > 0 ? sideSlopePace(slope, Math.abs(across) / slope) : 1;
    pace += Math.min(MOST_ERROR, day.pace * sideways);
    surfacePace += under.pace;
    side += Number.isFinite(across) ? across : 0;
    if (marksCanBeHad(air.visibilityMetres)) marked++;
  }
  const k = n + 1;
  return {
    by: { bearing: bearing / k, pace: pace / k, surfaceWander: wander / k, surfacePace: surfacePace / k },
    marks: marked * 2 > k,
    sideSlope: side / k,
  };
}

/**
 * Closed-form scatter of the end of a straight leg: lateral M·√((d·σ)² + (ρ·w)²·d/100), along 1.054·d·σ_pace·M_pace·ρ_pace,
 * mean drift d·k·tan(slope)·|sin(angle to the fall line)| towards the low side. Its own scatter (half the mean) is in `lateral`.
 */
export function scatterOf(ground: MappedGround, errand: Errand, a: Point, b: Point): Scatter {
  const met = legGround(ground, errand, a, b);
  const { set } = errand.party;
  const d = distance(a, b);
  // Rising to the right means falling to the left: the party is carried left.
  const drift = -d * set.driftDegrees * RADIANS * met.sideSlope;
  const straight = lateralSd(set, d, met.by, met.marks);
  return {
    lateral: Math.sqrt(straight * straight + (drift * drift) / 4),
    along: alongSd(set, d, met.by),
    drift,
  };
}
