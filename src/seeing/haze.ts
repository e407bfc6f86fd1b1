import { exp, ln } from '../math/portable.ts';

/*
 * Contrast in haze: C(d) = C₀·e^(−σd) [Koschmieder H (1924) Theorie der horizontalen Sichtweite. Beitr. Phys. freien Atm. 12]. A
 * meteorological visibility (MOR) is where 5 % is left of a black thing against the sky: σ = ln 20 / MOR (WMO-No. 8).
 */
const LEFT_AT_MOR = 0.05;
const LN_20 = ln(20);

/** σ per metre at a visibility in metres. */
export function extinction(visibilityMetres: number): number {
  return LN_20 / visibilityMetres;
}

/** Share of a thing's own contrast that is left at a distance. */
export function contrastLeft(visibilityMetres: number, distance: number): number {
  return exp(-extinction(visibilityMetres) * distance);
}

/**
 * Metres at which a thing of contrast C₀ (0..1 against what is behind it) sinks to the threshold; 0 for less.
 * Over the visibility this is the share c of a feature's doubt: C₀ = 1 gives 1, .55 gives .8, .22 gives .5.
 */
export function rangeOfContrast(visibilityMetres: number, contrast: number, threshold = LEFT_AT_MOR): number {
  return Math.max(0, ln(contrast / threshold) / extinction(visibilityMetres));
}

/** The word for a visibility: fog below 1 km, mist to 5 km (WMO-No. 8, ICAO Annex 3); null in clear air. */
export function hazeWord(visibilityMetres: number): 'fog' | 'mist' | null {
  return visibilityMetres < 1000 ? 'fog' : visibilityMetres <= 5000 ? 'mist' : null;
}
