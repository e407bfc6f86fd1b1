import type { SpeedModel } from './model.ts';

/** 5 km/h on the map, and one hour more per 600 m of climb: 0.72 s/m + 6 s per metre climbed. */
export const NAISMITH_LEVEL_PACE = 0.72;
export const NAISMITH_CLIMB_PACE = 6;

/** t = 0.72·ΔS + 6·ΔH⁺ seconds, of a distance on the map and a climb in metres. The first wording was 3 miles an hour and an hour per 2000 feet. */
export function naismithSeconds(metres: number, climb: number): number {
  return NAISMITH_LEVEL_PACE * metres + NAISMITH_CLIMB_PACE * Math.max(0, climb);
}

export const NAISMITH: SpeedModel = {
  name: 'naismith',
  source:
    'Naismith WW (1892) Excursions: Cruach Ardran, Stobinian, and Ben More. Scottish Mountaineering Club Journal 2(3):136; metric form 5 km/h + 1 h per 600 m',
  warning:
    'For fit people in good going without rests; descent costs nothing extra and steep ground is not slowed; says nothing about walking off a path.',
  hasOffPath: false,
  zigZags: true,
  metresPerSecond(gradient) {
    return 1 / naismithSeconds(1, gradient);
  },
  bestPace: NAISMITH_LEVEL_PACE,
};
