import type { Feature } from '../features/feature.ts';
import { distance, type Point } from '../math/plane.ts';
import { halfWidth } from '../seeing/sweep.ts';
import type { Lookup } from './place.ts';

/** A mapped point within this of a leg's end confirms it, metres. */
export const AT_END = 15;

/** The point feature that stands where a leg ends, the target before any other; null where nothing does. */
export function pointFeatureAt(at: Point, look: Lookup): Feature | null {
  const { target } = look.errand;
  let best: Feature | null = distance(target.at, at) <= 1 ? target.feature : null;
  let least = AT_END;
  if (best) return best;
  for (const feature of look.ground.features) {
    if (feature.geometry.type !== 'point') continue;
    const away = distance(feature.geometry.at, at);
    if (away > least) continue;
    least = away;
    best = feature;
  }
  return best;
}

/** Half the sweep width in good light, metres, 10 to 60: from here a feature at a leg's end is seen. */
export function reachOf(feature: Feature | null): number {
  if (!feature) return AT_END;
  return Math.min(60, Math.max(10, halfWidth(feature.doubt, feature.doubt.rangeMetres)));
}

export function endFeature(named: Feature | null, at: Point, look: Lookup): Feature | null {
  return named ?? pointFeatureAt(at, look);
}
