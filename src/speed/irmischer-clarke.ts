import { exp } from '../math/portable.ts';
import type { SpeedModel } from './model.ts';

/**
 * v = 0.11 + k·e^(−(S + c)² / (2·30²)) m/s, S the signed gradient in percent; k = 1, c = 5 on a path,
 * k = 0.67, c = 2 off it. Women of the sample: × 0.95.
 */
function irmischerClarke(name: string, share: number, sample: string): SpeedModel {
  return {
    name,
    source:
      'Irmischer IJ, Clarke KC (2018) Measuring and modeling the speed of human navigation. Cartography and Geographic Information Science 45(2):177–186',
    warning: `Fitted to ${sample} navigating alone with map and compass, map checks included; it never falls below 0.11 m/s, so very steep ground comes out too fast. The slope is signed and the width is 2·30²; some programs write it otherwise.`,
    hasOffPath: true,
    zigZags: true,
    metresPerSecond(gradient, onPath) {
      const s = 100 * gradient + (onPath ? 5 : 2);
      return share * (0.11 + (onPath ? 1 : 0.67) * exp((-s * s) / 1800));
    },
    bestPace: 1 / (share * 1.11),
  };
}

export const IRMISCHER_CLARKE = irmischerClarke('irmischer-clarke', 1, 'young fit men');
export const IRMISCHER_CLARKE_WOMEN = irmischerClarke('irmischer-clarke-women', 0.95, 'young fit women');
