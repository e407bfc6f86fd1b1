export const GROUNDS = ['dry', 'normal', 'wet', 'saturated', 'spate'] as const;
export type GroundWetness = (typeof GROUNDS)[number];

/** The day. Visibility is a field: one value below the cloud base, one above it. */
export interface Conditions {
  readonly visibility: {
    /** Metres below the cloud base. */
    readonly below: number;
    /** Metres above the cloud base. */
    readonly above: number;
    /** Mean height of the cloud base, metres; null when there is none and `below` holds everywhere. */
    readonly cloudBase: number | null;
  };
  readonly ground: GroundWetness;
  readonly light: 'day' | 'dark';
  readonly wind: { readonly metresPerSecond: number; readonly fromDegrees: number };
  /** ISO date for declination and daylight; null prints grid bearings only. */
  readonly date: string | null;
}

/** Multipliers of model.md 3. `speed` and `detection` scale down, `bearing` and `pace` scale errors up. */
export interface Factors {
  readonly speed: number;
  readonly bearing: number;
  readonly pace: number;
  readonly detection: number;
}
