import type { SpeedModel } from './model.ts';

/** α: metres on the level that cost as much as one metre of climb; 8 for men, 10 for women. */
export const SCARF_ALPHA = 8;

/** Distance on the level that costs as much as a distance with a climb: x + α·climb, any one unit. */
export function equivalentDistance(distance: number, climb: number, alpha = SCARF_ALPHA): number {
  return distance + alpha * climb;
}

function scarf(name: string, levelMetresPerSecond: number, alpha: number, warning: string): SpeedModel {
  return {
    name,
    source:
      "Scarf P (2007) Route choice in mountain navigation, Naismith's rule, and the equivalence of distance and climb. Journal of Sports Sciences 25(6):719–726",
    warning,
    hasOffPath: false,
    zigZags: true,
    metresPerSecond(gradient) {
      return levelMetresPerSecond / equivalentDistance(1, Math.max(0, gradient), alpha);
    },
    bestPace: 1 / levelMetresPerSecond,
  };
}

/** v = v₀ / (1 + α·max(0, S)), α = 8, v₀ = 5 km/h. */
export const SCARF = scarf(
  'scarf',
  5 / 3.6,
  SCARF_ALPHA,
  'The equivalence was fitted to fell-race records; the level speed of 5 km/h is an assumption; descent costs nothing extra; says nothing about walking off a path.',
);

/** A party that names its own speed on the level; climb is added by Scarf's equivalence, so on flat ground it is constant. */
export function constantSpeed(metresPerSecond: number): SpeedModel {
  return scarf(
    `${metresPerSecond} m/s`,
    metresPerSecond,
    SCARF_ALPHA,
    'The level speed is as given in the task; climb costs 8 times its height on the level; descent costs nothing extra.',
  );
}
