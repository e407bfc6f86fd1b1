import { exp } from '../math/portable.ts';
import type { SpeedModel } from './model.ts';

/** W = 4.8·e^(−5.3·|0.7·S + 0.03|) km/h, S rise over run. */
export const MARQUEZ_PEREZ: SpeedModel = {
  name: 'marquez-perez',
  source:
    'Márquez-Pérez J, Vallejo-Villalta I, Álvarez-Francoso JI (2017) Estimated travel time for walking trails in natural areas. Geografisk Tidsskrift 117(1):53–62',
  warning:
    'Fitted to leisure walkers on marked trails: slower than most parties; says nothing about walking off a path.',
  hasOffPath: false,
  zigZags: true,
  metresPerSecond(gradient) {
    return (4.8 * exp(-5.3 * Math.abs(0.7 * gradient + 0.03))) / 3.6;
  },
  bestPace: 0.75,
};
