import { exp } from '../math/portable.ts';
import type { SpeedModel } from './model.ts';

const KMH = 1 / 3.6;

/** W = 6·e^(−3.5·|S + 0.05|) km/h, S rise over run; × 0.6 off the path. */
export const TOBLER: SpeedModel = {
  name: 'tobler',
  source:
    'Tobler W (1993) Three presentations on geographical analysis and modeling, NCGIA Technical Report 93-1',
  warning:
    'Fitted to one set of marching times from 1950; very slow on steep ground; "off path" is one factor of 0.6 for all ground.',
  hasOffPath: true,
  zigZags: true,
  metresPerSecond(gradient, onPath) {
    return 6 * exp(-3.5 * Math.abs(gradient + 0.05)) * (onPath ? 1 : 0.6) * KMH;
  },
  bestPace: 0.6,
};
