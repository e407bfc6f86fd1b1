import { atan2, exp } from '../math/portable.ts';
import type { SpeedModel } from './model.ts';

/** v = v₀·e^(−k·|θ|), k = 2.8 per radian, v₀ = 1.4 m/s (the runner's own on the level). */
export const DAVEY: SpeedModel = {
  name: 'davey',
  source:
    'Davey RC, Hayes M, Norman JM (1994) Running uphill: an experimental result and its applications. Journal of the Operational Research Society 45(1):25–29',
  warning:
    'Fitted to running uphill; downhill is taken as slow as uphill and 1.4 m/s on the level is an assumption; says nothing about walking off a path.',
  hasOffPath: false,
  zigZags: true,
  metresPerSecond(gradient) {
    return 1.4 * exp(-2.8 * Math.abs(atan2(gradient, 1)));
  },
  bestPace: 1 / 1.4,
};
