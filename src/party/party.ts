export const SKILL_LEVELS = ['novice', 'competent', 'expert'] as const;
export type SkillLevel = (typeof SKILL_LEVELS)[number];

/** Every parameter of model.md 2, by the names of the task file's `set`. One SD unless stated; degrees and shares at this edge. */
export interface Skill {
  /** σ of a bearing taken and followed, degrees (day habit .8σ, per bearing .6σ). */
  readonly bearingDegrees: number;
  /** s: re-sighting SD, degrees; gives wander where `wanderMetres` is not set. */
  readonly resightDegrees: number;
  /** w: wander in metres per √(100 m); null follows from re-sighting. */
  readonly wanderMetres: number | null;
  readonly paceShare: number;
  /** Chance per km of a ±100 m miscount. */
  readonly miscountPerKm: number;
  readonly timingShare: number;
  /** Bias of timing as a share of the distance (−.15 = stops 15 % short). */
  readonly timingBiasShare: number;
  /** k of the downhill drift, degrees. */
  readonly driftDegrees: number;
  /** Chance of following the needle the wrong way round, per bearing. */
  readonly reverseShare: number;
  /** Chance of a 10° slip per bearing. */
  readonly slipShare: number;
  /** Chance per day that the declination is omitted or reversed. */
  readonly declinationShare: number;
  /** Height drift per 100 m of contouring: mean and SD, metres. */
  readonly contourMetres: { readonly mean: number; readonly sd: number };
  readonly aspectDegrees: number;
  readonly noticedShare: number;
  readonly recognisedShare: number;
  /** Overrun of a leg that ends on a line, × distance. */
  readonly overrun: number;
  /** a: accepts a lookalike at a clash of 2 SD. */
  readonly lookalikeShare: number;
  readonly admitsLostShare: number;
  readonly junctionShare: number;
  /** Factor on the handrail loss rates (2 / 1 / .5). */
  readonly handrailLossPerKm: number;
  /** SD of the day's walking speed. */
  readonly speedShare: number;
  readonly searchMetresPerMinute: number;
}

export interface Party {
  readonly skill: SkillLevel;
  readonly set: Skill;
  readonly people: number;
  readonly altimeter: boolean;
  readonly compass: boolean;
  /** Name of a travel-time model, or a constant speed on flat ground. */
  readonly speed: string | { readonly metresPerSecond: number };
  readonly doublePacesPer100: number;
}

export interface Limits {
  /** Time limit of the task, minutes; null for none. */
  readonly minutes: number | null;
  readonly searchMinutes: number;
  readonly relaunches: number;
  readonly searchPeopleAbreast: number;
  readonly turnRoundMinutes: number | null;
  readonly slopeDegrees: number;
}
