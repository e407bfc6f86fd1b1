import { pow } from '../math/portable.ts';

/**
 * Watts per kg of walking at S m/s (0.45–1.97) on a gradient of G percent, up or down, without a load:
 * 1.44 + 1.94·S^0.43 + 0.24·S⁴ + 0.34·S·G·(1 − 1.05^(1 − 1.1^(G + 32)))
 * Looney DP et al. (2019) Estimating energy expenditure during level, uphill, and downhill walking. Medicine & Science in Sports &
 * Exercise 51(9):1954–1960. Some programs write S² for S⁴. For the report only.
 */
export function walkingWattsPerKilogram(metresPerSecond: number, gradientPercent: number): number {
  const s = metresPerSecond;
  const g = gradientPercent;
  const slope = 0.34 * s * g * (1 - pow(1.05, 1 - pow(1.1, g + 32)));
  return 1.44 + 1.94 * pow(s, 0.43) + 0.24 * s * s * s * s + slope;
}
