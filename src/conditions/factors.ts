import { ln } from '../math/portable.ts';
import type { Conditions, Factors, GroundWetness } from './conditions.ts';

/*
 * Multipliers of the day, common practice without a published source. A table is interpolated between the centres of its
 * bands, in ln V for visibility, so that no small change of the day makes a jump.
 */

/** Bounds of any product of multipliers. */
export const MOST_ERROR = 3;
export const LEAST_SPEED = 0.25;
export const LEAST_DETECTION = 0.2;

/** "Poor visibility" is V below this, metres. */
export const POOR_VISIBILITY = 200;

const NOTHING: Factors = { speed: 1, bearing: 1, pace: 1, detection: 1 };

/** Band centres of visibility, metres, from clear to thick. Detection follows c·V, so its column stays 1. */
const VISIBILITY: readonly (readonly [number, Factors])[] = [
  [1000, NOTHING],
  [500, { speed: 0.97, bearing: 1, pace: 1, detection: 1 }],
  [300, { speed: 0.93, bearing: 1.1, pace: 1.05, detection: 1 }],
  [120, { speed: 0.85, bearing: 1.3, pace: 1.1, detection: 1 }],
  [35, { speed: 0.7, bearing: 1.6, pace: 1.2, detection: 1 }],
];

/** Head-torch in the dark; how far it shows is `seeing/range.ts`. */
const DARK: Factors = { speed: 0.75, bearing: 1.3, pace: 1.15, detection: 1 };

const GROUND_OFF_PATH: Readonly<Record<GroundWetness, Factors>> = {
  dry: NOTHING,
  normal: NOTHING,
  wet: { speed: 0.9, bearing: 1.1, pace: 1.05, detection: 1 },
  saturated: { speed: 0.75, bearing: 1.2, pace: 1.1, detection: 1 },
  spate: { speed: 0.6, bearing: 1.3, pace: 1.15, detection: 1 },
};

const WIND: readonly (readonly [number, Factors])[] = [
  [0, NOTHING],
  [8, { speed: 0.97, bearing: 1, pace: 1, detection: 1 }],
  [14, { speed: 0.9, bearing: 1.15, pace: 1.05, detection: 0.95 }],
  [20, { speed: 0.75, bearing: 1.4, pace: 1.15, detection: 0.85 }],
];

/** Visibility in metres at a height, under a cloud base that a trial may have moved from the mean. */
export function visibilityAt(
  conditions: Conditions,
  height: number,
  cloudBase: number | null = conditions.visibility.cloudBase,
): number {
  const { below, above } = conditions.visibility;
  return cloudBase !== null && height > cloudBase ? above : below;
}

/** Product of two sets of multipliers, bounded. */
export function combined(a: Factors, b: Factors): Factors {
  return {
    speed: Math.max(LEAST_SPEED, a.speed * b.speed),
    bearing: Math.min(MOST_ERROR, a.bearing * b.bearing),
    pace: Math.min(MOST_ERROR, a.pace * b.pace),
    detection: Math.max(LEAST_DETECTION, a.detection * b.detection),
  };
}

/** M of the day at a visibility: visibility × light × wind, × wetness of the ground when off a path. */
export function factorsOf(
  conditions: Conditions,
  visibilityMetres: number,
  where: 'on-path' | 'off-path' = 'off-path',
): Factors {
  let all = combined(visibilityFactors(visibilityMetres), windFactors(conditions.wind.metresPerSecond));
  if (conditions.light === 'dark') all = combined(all, DARK);
  return where === 'on-path' ? all : combined(all, GROUND_OFF_PATH[conditions.ground]);
}

/** Speed on the day's ground off a path. */
export function groundSpeed(ground: GroundWetness): number {
  return GROUND_OFF_PATH[ground].speed;
}

export function visibilityFactors(visibilityMetres: number): Factors {
  const clear = VISIBILITY[0]!;
  if (visibilityMetres >= clear[0]) return clear[1];
  const thick = VISIBILITY[VISIBILITY.length - 1]!;
  if (visibilityMetres <= thick[0]) return thick[1];
  const i = VISIBILITY.findIndex(([v]) => v <= visibilityMetres);
  const [low, worse] = VISIBILITY[i]!;
  const [high, better] = VISIBILITY[i - 1]!;
  return between(worse, better, (ln(visibilityMetres) - ln(low)) / (ln(high) - ln(low)));
}

export function windFactors(metresPerSecond: number): Factors {
  const storm = WIND[WIND.length - 1]!;
  if (metresPerSecond >= storm[0]) return storm[1];
  const i = WIND.findIndex(([v]) => v > metresPerSecond);
  const [low, calmer] = WIND[i - 1]!;
  const [high, stronger] = WIND[i]!;
  return between(calmer, stronger, (metresPerSecond - low) / (high - low));
}

function between(a: Factors, b: Factors, t: number): Factors {
  return {
    speed: a.speed + (b.speed - a.speed) * t,
    bearing: a.bearing + (b.bearing - a.bearing) * t,
    pace: a.pace + (b.pace - a.pace) * t,
    detection: a.detection + (b.detection - a.detection) * t,
  };
}

/** What holds on one side of the cloud base, looked up once and used at every step. */
export interface Air {
  readonly visibilityMetres: number;
  readonly onPath: Factors;
  readonly offPath: Factors;
  /** × the chance of a wrong turn at a junction. */
  readonly junction: number;
  /** × the rate at which a handrail is lost. */
  readonly handrail: number;
}

/** Both sides of the cloud base. */
export interface DayFactors {
  readonly below: Air;
  readonly above: Air;
}

/** Prepared once per task: visibility takes two values only, so that a walker needs no transcendental call per step. */
export function dayFactors(conditions: Conditions): DayFactors {
  const { below, above } = conditions.visibility;
  return { below: airOf(conditions, below), above: airOf(conditions, above) };
}

export function airOf(conditions: Conditions, visibilityMetres: number): Air {
  return {
    visibilityMetres,
    onPath: factorsOf(conditions, visibilityMetres, 'on-path'),
    offPath: factorsOf(conditions, visibilityMetres, 'off-path'),
    junction: junctionFactor(conditions, visibilityMetres),
    handrail: handrailFactor(conditions, visibilityMetres),
  };
}

/** Wrong turns: ×2 in poor visibility, ×2 in the dark. */
export function junctionFactor(conditions: Conditions, visibilityMetres: number): number {
  return (visibilityMetres < POOR_VISIBILITY ? 2 : 1) * (conditions.light === 'dark' ? 2 : 1);
}

/** Loss of a handrail: ×3 below V 50, ×2 in the dark. */
export function handrailFactor(conditions: Conditions, visibilityMetres: number): number {
  return (visibilityMetres < 50 ? 3 : 1) * (conditions.light === 'dark' ? 2 : 1);
}
