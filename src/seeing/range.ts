import type { GroundWetness } from '../conditions/conditions.ts';
import { type Air, LEAST_DETECTION, POOR_VISIBILITY } from '../conditions/factors.ts';
import { SPRING_DETECTION } from '../conditions/underfoot.ts';
import type { Doubt } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import { ln } from '../math/portable.ts';

/** Metres a head-torch shows a thing of each class of visibility. Common practice: 30–80 m. */
const TORCH_METRES: Readonly<Record<Doubt['visibility'], number>> = { high: 80, medium: 55, low: 30 };

/** Share of the torch's reach that is left in cloud, and the visibility from which the air is clear to a torch. */
const TORCH_IN_CLOUD = 0.3;
const TORCH_CLEAR_FROM = 1000;

/**
 * Rd, metres: how far a feature can be made out before the lie of the ground is asked.
 * Rd = min(R0·f, c·V), and in the dark no more than the torch shows. `detectionFactor` f is ground × wind × wetness (`detectionFactor`).
 */
export function detectionRange(
  doubt: Doubt,
  visibilityMetres: number,
  detectionFactor: number,
  light: 'day' | 'dark',
): number {
  const range = Math.min(doubt.rangeMetres * detectionFactor, doubt.contrast * visibilityMetres);
  return light === 'dark' ? Math.min(range, torchReach(doubt.visibility, visibilityMetres)) : range;
}

/** Metres a head-torch reaches. Cloud throws its light back: down to .3 at V 200, in ln V. */
export function torchReach(visibility: Doubt['visibility'], visibilityMetres: number): number {
  const reach = TORCH_METRES[visibility];
  if (visibilityMetres >= TORCH_CLEAR_FROM) return reach;
  if (visibilityMetres <= POOR_VISIBILITY) return reach * TORCH_IN_CLOUD;
  const t = ln(visibilityMetres / POOR_VISIBILITY) / ln(TORCH_CLEAR_FROM / POOR_VISIBILITY);
  return reach * (TORCH_IN_CLOUD + (1 - TORCH_IN_CLOUD) * t);
}

/** f of `detectionRange`: wind × ground cover, and for springs × how wet ground hides them. `surfaceDetection` is `surfaceFactors(…).detection`. */
export function detectionFactor(
  kind: FeatureKind,
  air: Air,
  surfaceDetection: number,
  ground: GroundWetness,
): number {
  const hidden = kind === 'spring' || kind === 'well' ? SPRING_DETECTION[ground] : 1;
  return Math.max(LEAST_DETECTION, air.offPath.detection * surfaceDetection * hidden);
}
