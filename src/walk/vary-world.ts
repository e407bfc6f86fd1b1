import { worldInShape } from './one-shape.ts';
import type { Line, Navigator, Spot, World } from './world.ts';

/** One setting of what the assumptions leave open; 1 everywhere is the task as it stands. */
export interface Variation {
  /** × every error of the party. */
  readonly errors: number;
  /** × the odds that a mapped thing is gone, and × √ of it the SD of its place. */
  readonly mapDoubt: number;
  /** × the distance at which things are seen. */
  readonly sight: number;
}

/** Ranges over which the assumptions are varied; common practice, no source. */
export const VARIED = { errors: [0.7, 1.4], mapDoubt: [0.5, 2], sight: [0.8, 1.25] } as const;

/**
 * A designed sample of the three ranges: a Latin square of nine, each range cut in nine and every ninth used once, with the
 * middle among them. Fixed, so that two runs vary the same.
 */
export function variations(): Variation[] {
  const order = [
    [4, 4, 4],
    [0, 2, 6],
    [8, 6, 2],
    [2, 8, 7],
    [6, 0, 1],
    [1, 5, 0],
    [7, 3, 8],
    [3, 1, 3],
    [5, 7, 5],
  ] as const;
  return order.map(([e, m, s]) => ({
    errors: between(VARIED.errors, e),
    mapDoubt: between(VARIED.mapDoubt, m),
    sight: between(VARIED.sight, s),
  }));
}

/** Quadratic through (0, low), (4, 1), (8, high): the middle of every range is the assumption itself. */
function between(range: readonly [number, number], step: number): number {
  const [low, high] = range;
  const t = step / 4 - 1;
  return 1 + ((high - low) / 2) * t + ((high + low) / 2 - 1) * t * t;
}

/** The same world under other assumptions. Rasters and geometry are shared. */
export function varyWorld(world: World, by: Variation): World {
  return worldInShape({
    ...world,
    trodsPerM2: world.trodsPerM2 * by.mapDoubt,
    cairnsPerM2: world.cairnsPerM2 * by.mapDoubt,
    navigator: varied(world.navigator, by.errors),
    lines: world.lines.map(
      (l): Line => ({ ...l, exists: doubted(l.exists, by.mapDoubt), sd: l.sd * Math.sqrt(by.mapDoubt) }),
    ),
    spots: world.spots.map(
      (s): Spot => ({
        ...s,
        // more doubt: fewer of what is mapped, more of what is not
        exists: s.unmapped ? 1 - doubted(1 - s.exists, by.mapDoubt) : doubted(s.exists, by.mapDoubt),
        sd: s.sd * Math.sqrt(by.mapDoubt),
        halfLow: s.halfLow * by.sight,
        halfHigh: s.halfHigh * by.sight,
      }),
    ),
  });
}

function varied(n: Navigator, f: number): Navigator {
  return {
    ...n,
    bearing: n.bearing * f,
    wander: n.wander * f,
    wanderBlind: n.wanderBlind * f,
    pace: n.pace * f,
    miscountPerMetre: n.miscountPerMetre * f,
    timing: n.timing * f,
    drift: n.drift * f,
    reverse: n.reverse * f,
    slip: n.slip * f,
    declination: n.declination * f,
    contourMean: n.contourMean * f,
    contourSd: n.contourSd * f,
    junction: n.junction * f,
    handrailLoss: n.handrailLoss * f,
    noticed: doubted(n.noticed, f),
    lookalike: 1 - doubted(1 - n.lookalike, f),
  };
}

/** Odds against multiplied: p / (p + m·(1 − p)); what is certain stays certain. */
function doubted(p: number, m: number): number {
  return p >= 1 ? 1 : p / (p + m * (1 - p));
}
