import type { SpeedModel } from './model.ts';

/** t = 0.75 + 0.09·|S| + 14.6·S² seconds per metre, S rise over run. */
export const REES: SpeedModel = {
  name: 'rees',
  source: 'Rees WG (2004) Least-cost paths in mountainous terrain. Computers & Geosciences 30(3):203–209',
  warning:
    'Fitted to foot paths in hills by one walker; the same up and down; says nothing about walking off a path.',
  hasOffPath: false,
  zigZags: true,
  metresPerSecond(gradient) {
    return 1 / (0.75 + 0.09 * Math.abs(gradient) + 14.6 * gradient * gradient);
  },
  bestPace: 0.75,
};
