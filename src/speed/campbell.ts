import { RADIANS } from '../math/bearing.ts';
import { atan2 } from '../math/portable.ts';
import type { SpeedModel } from './model.ts';

type Coefficients = readonly [a: number, b: number, c: number, d: number, e: number];

/** Lorentz fits by percentile of travel rate, Supplementary Table S1: the percentiles whose figures could be confirmed. */
const PERCENTILES: readonly (readonly [number, Coefficients])[] = [
  [1, [-2.1, 12.273, 21.816, 0.263, -0.00193]],
  [5, [-1.527, 14.041, 36.813, 0.32, -0.00273]],
  [75, [-3.067, 13.888, 113.655, 0.518, -0.00488]],
  [95, [-3.485, 17.033, 138.04, 1.179, -0.01252]],
  [99, [-4, 13.903, 123.515, 1.961, -0.01081]],
];

/** r = c / (π·b·(1 + ((θ − a)/b)²)) + d + e·θ m/s, θ the slope in degrees. */
function rate(degrees: number, [a, b, c, d, e]: Coefficients): number {
  const x = (degrees - a) / b;
  return c / (Math.PI * b * (1 + x * x)) + d + e * degrees;
}

export const CAMPBELL: readonly SpeedModel[] = PERCENTILES.map(([percentile, fit]) => {
  let best = 0;
  // the slow drift e·θ moves the peak a little off a: look for it on a fine grid and allow for what lies between
  for (let t = -1500; t <= 500; t++) best = Math.max(best, rate(t / 100, fit));
  return {
    name: `campbell-p${percentile}`,
    source:
      'Campbell MJ, Dennison PE, Butler BW, Page WG (2019) Using crowdsourced fitness tracker data to model the relationship between slope and travel rates. Applied Geography 106:93–107, Suppl. Table S1',
    warning: `The ${percentile}th percentile of people who record themselves on trails near a city, walking to running; data from about −30° to 30°; says nothing about walking off a path.`,
    hasOffPath: false,
    zigZags: true,
    metresPerSecond(gradient) {
      return rate(atan2(gradient, 1) / RADIANS, fit);
    },
    bestPace: 1 / (best + 1e-4),
  };
});

/** Slopes within which the parabola below is used; it is held beyond them. */
const LIDAR_DEGREES = 30;

/** r = 1.662 − 0.005191·θ − 0.001127·θ² m/s, θ the slope in degrees; the terms for vegetation and roughness are left out. */
export const CAMPBELL_LIDAR: SpeedModel = {
  name: 'campbell-2017',
  source:
    'Campbell MJ, Dennison PE, Butler BW (2017) A LiDAR-based analysis of the effects of slope, vegetation density, and ground surface roughness on travel rates. International Journal of Wildland Fire 26(10):884–895',
  warning:
    'Slope term only; walkers on short open transects at a brisk pace; held beyond 30°, where the parabola soon reaches nought.',
  hasOffPath: false,
  zigZags: true,
  metresPerSecond(gradient) {
    const t = Math.max(-LIDAR_DEGREES, Math.min(LIDAR_DEGREES, atan2(gradient, 1) / RADIANS));
    return 1.662 - 0.005191 * t - 0.001127 * t * t;
  },
  // the peak lies at θ = −0.005191 / (2 · 0.001127) = −2.303°
  bestPace: 1 / (1.662 + (0.005191 * 0.005191) / (4 * 0.001127)),
};
