import type { Surface } from '../terrain/terrain.ts';

/**
 * Watts of a person of W kg with a load of L kg at V m/s on an uphill gradient of G percent and ground η:
 * M = 1.5W + 2(W + L)(L/W)² + η(W + L)(1.5V² + 0.35VG)
 * Pandolf KB, Givoni B, Goldman RF (1977) Predicting energy expenditure with loads while standing or walking very slowly. Journal of
 * Applied Physiology 43(4):577–581. Level and uphill only, 0.2–2.5 m/s: a gradient below 0 is taken as level. For the report only.
 */
export function loadedWatts(
  body: { readonly kilograms: number; readonly loadKilograms: number },
  metresPerSecond: number,
  gradientPercent: number,
  terrain: number,
): number {
  const w = body.kilograms;
  const l = body.loadKilograms;
  const v = metresPerSecond;
  const carried = l / w;
  const g = Math.max(0, gradientPercent);
  return 1.5 * w + 2 * (w + l) * carried * carried + terrain * (w + l) * (1.5 * v * v + 0.35 * v * g);
}

/**
 * η, multipliers of energy (never of speed). Soule RG, Goldman RF (1972) Terrain coefficients for energy cost prediction. Journal of
 * Applied Physiology 32(5):706–708, as reprinted.
 */
export const TERRAIN_COEFFICIENTS = {
  asphalt: 1,
  dirt_road: 1.1,
  grass: 1.1,
  light_brush: 1.2,
  ploughed_field: 1.3,
  heavy_brush: 1.5,
  hard_packed_snow: 1.6,
  swampy_bog: 1.8,
  loose_sand: 2.1,
} as const;

/** Which of them stands for which cover: common practice, no published source; boulders are not in the list. */
const OF_SURFACE: Readonly<Record<Surface, keyof typeof TERRAIN_COEFFICIENTS>> = {
  path: 'dirt_road',
  grass: 'grass',
  heather: 'light_brush',
  tussock: 'heavy_brush',
  hag: 'swampy_bog',
  boulder: 'heavy_brush',
};

export function terrainCoefficient(surface: Surface): number {
  return TERRAIN_COEFFICIENTS[OF_SURFACE[surface]];
}
