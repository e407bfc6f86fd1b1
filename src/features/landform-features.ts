import type { Point } from '../math/plane.ts';
import { defaultDoubt } from './doubt.ts';
import type { Doubt, Feature } from './feature.ts';
import type { FeatureKind } from './kinds.ts';

/** A landform found in the elevation: a place, or a line for a ridge or a break of slope. */
export interface LandformFound {
  readonly kind: Extract<
    FeatureKind,
    'knoll' | 'col' | 'spur' | 're-entrant' | 'break-of-slope' | 'flat-summit' | 'ridge'
  >;
  readonly at: Point | readonly Point[];
  /** Metres by which it stands out from, or lies in, what is around it. */
  readonly reliefMetres: number;
}

/** Relief from which a landform is as sure as its kind, metres; common practice, no published source. */
const PLAIN_TO_SEE = 5;

/**
 * Landforms as features with their doubt, ids by kind and place to 10 m (`knoll:43120-51285`). What stands out by less than 5 m is
 * less sure to be recognised as one; none lies better than a cell of the raster it was found in.
 */
export function landformsAsFeatures(found: readonly LandformFound[], cellMetres: number): Feature[] {
  const used = new Map<string, number>();
  return found.map(({ kind, at, reliefMetres }): Feature => {
    const points = isPoint(at) ? [at] : at;
    const [east, north] = points[points.length >> 1]!;
    const stem = `${kind}:${Math.round(east / 10)}-${Math.round(north / 10)}`;
    const times = (used.get(stem) ?? 0) + 1;
    used.set(stem, times);
    const own = defaultDoubt(kind);
    const plain = Math.max(0, Math.min(1, reliefMetres / PLAIN_TO_SEE));
    const given: Partial<Doubt> = {
      // half of its chance stays: the map's reader sees the same contour
      ...(plain < 1 ? { exists: own.exists * (0.5 + plain / 2) } : {}),
      ...(cellMetres > own.positionMetres ? { positionMetres: cellMetres } : {}),
    };
    return {
      id: times === 1 ? stem : `${stem}/${times}`,
      kind,
      geometry: isPoint(at) ? { type: 'point', at } : { type: 'line', points: at },
      given,
      doubt: { ...own, ...given },
      origin: 'derived',
    };
  });
}

function isPoint(at: Point | readonly Point[]): at is Point {
  return typeof at[0] === 'number';
}
