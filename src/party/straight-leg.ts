import { RADIANS } from '../math/bearing.ts';
import type { Skill } from './party.ts';

/*
 * The errors of a straight leg on a bearing. σ of a bearing splits into a habit of the day and a part drawn at each
 * bearing taken (.8² + .6² = 1); a pace scale is held for the day and a third of it is drawn anew per leg (√(1 + 1/9) = 1.054).
 */
export const HABIT_SHARE = 0.8;
export const PER_BEARING_SHARE = 0.6;
export const PACE_PER_LEG_SHARE = 1 / 3;
/** SD of all the pace error of one leg over the day's. */
export const PACE_TOTAL_SHARE = Math.sqrt(1 + PACE_PER_LEG_SHARE * PACE_PER_LEG_SHARE);

/** Metres between re-sightings where marks can be had, and where they cannot (V below 50 m, featureless ground). */
export const RESIGHT_WITH_MARKS = 50;
export const RESIGHT_WITHOUT_MARKS = 80;
/** Below this visibility no mark can be had. */
export const MARKS_VISIBILITY = 50;

/** SD of a bearing taken and followed, radians, before any multiplier. */
export function bearingSdRadians(skill: Skill): number {
  return skill.bearingDegrees * RADIANS;
}

export function habitSdRadians(skill: Skill): number {
  return HABIT_SHARE * bearingSdRadians(skill);
}

export function perBearingSdRadians(skill: Skill): number {
  return PER_BEARING_SHARE * bearingSdRadians(skill);
}

/**
 * Wander w in metres per √(100 m): w = s·√(100·l), s the re-sighting SD in radians and l the metres between re-sightings.
 * Mist never improves it, since l only grows. A given `wanderMetres` is taken as it is.
 */
export function wanderMetres(skill: Skill, marks: boolean): number {
  if (skill.wanderMetres !== null) return skill.wanderMetres;
  const l = marks ? RESIGHT_WITH_MARKS : RESIGHT_WITHOUT_MARKS;
  return skill.resightDegrees * RADIANS * Math.sqrt(100 * l);
}

/** Whether a mark ahead can be had to walk to. */
export function marksCanBeHad(visibilityMetres: number, featureless = false): boolean {
  return visibilityMetres >= MARKS_VISIBILITY && !featureless;
}

/** What multiplies a leg's errors: M of the conditions, ρ of the ground underfoot. */
export interface LegMultipliers {
  readonly bearing: number;
  readonly pace: number;
  readonly surfaceWander: number;
  readonly surfacePace: number;
}

export const NO_MULTIPLIERS: LegMultipliers = { bearing: 1, pace: 1, surfaceWander: 1, surfacePace: 1 };

/** Lateral SD in metres of a straight leg of d metres: M·√((d·σ)² + (ρ·w)²·d/100). */
export function lateralSd(
  skill: Skill,
  d: number,
  by: LegMultipliers = NO_MULTIPLIERS,
  marks = true,
): number {
  const bias = d * bearingSdRadians(skill);
  const wander = by.surfaceWander * wanderMetres(skill, marks);
  return by.bearing * Math.sqrt(bias * bias + (wander * wander * d) / 100);
}

/** Along-track SD in metres of a straight paced leg of d metres: 1.054·d·σ·M·ρ. */
export function alongSd(skill: Skill, d: number, by: LegMultipliers = NO_MULTIPLIERS): number {
  return PACE_TOTAL_SHARE * d * skill.paceShare * by.pace * by.surfacePace;
}
