import type { SpeedModel } from './model.ts';
import { NAISMITH_CLIMB_PACE, NAISMITH_LEVEL_PACE } from './naismith.ts';

/** Ten minutes per 300 m of descent, in seconds per metre. */
const DESCENT = 1.9998;
const TAN_5 = 0.08748866352592401;
/** tan 12°, as rounded where the rule is written for rasters. */
const TAN_12 = 0.2125;

/**
 * Seconds per map metre: Naismith, less 1.9998 s per metre of gentle descent (5–12°), more by as much on steep descent (> 12°).
 * `from5` false lets the gentle part begin at 0°, the other reading of the rule.
 */
export function langmuirPace(gradient: number, from5 = true): number {
  if (gradient >= 0) return NAISMITH_LEVEL_PACE + NAISMITH_CLIMB_PACE * gradient;
  const down = -gradient;
  if (down > TAN_12) return NAISMITH_LEVEL_PACE + DESCENT * down;
  return from5 && down < TAN_5 ? NAISMITH_LEVEL_PACE : NAISMITH_LEVEL_PACE - DESCENT * down;
}

export const NAISMITH_LANGMUIR: SpeedModel = {
  name: 'naismith-langmuir',
  source:
    'Langmuir E (1984) Mountaincraft and Leadership, after Naismith (1892); raster form after Aitken R (1977)',
  warning:
    'Descent rule: quicker between 5° and 12°, slower beyond 12°. It jumps at both (from 0.30 to 1.14 s/m at 12°), so a found line may hug a slope just under 12°; says nothing about walking off a path.',
  hasOffPath: false,
  zigZags: false,
  metresPerSecond(gradient) {
    return 1 / langmuirPace(gradient);
  },
  bestPace: NAISMITH_LEVEL_PACE - DESCENT * TAN_12,
};
