import { normalCdf } from '../math/normal-cdf.ts';
import { exp } from '../math/portable.ts';

/*
 * Chance that a search of an area finds what is in it, against its coverage C = W × track length / area.
 * Koopman BO (1946) Search and Screening, OEG Report 56; (1980) Pergamon. Formulas from memory.
 */

/** Strips laid at random: 1 − e^(−C). What searches on land reckon with. */
export function randomSearch(coverage: number): number {
  return 1 - exp(-coverage);
}

/** Parallel strips under the inverse-cube law: erf(C·√π/2) = 2Φ(C·√(π/2)) − 1. */
export function inverseCubeSearch(coverage: number): number {
  return 2 * normalCdf(coverage * Math.sqrt(Math.PI / 2), 0, 1) - 1;
}

/** Parallel strips side by side with a definite range: C, at most 1. */
export function definiteSearch(coverage: number): number {
  return Math.min(1, coverage);
}
