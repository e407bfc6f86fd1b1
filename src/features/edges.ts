import { lineLength } from '../math/plane.ts';
import { defaultDoubt } from './doubt.ts';
import type { Feature } from './feature.ts';
import type { FeatureKind } from './kinds.ts';

const EDGE: Readonly<Partial<Record<FeatureKind, FeatureKind>>> = {
  forest: 'forest-edge',
  marsh: 'marsh-edge',
};
/** A shorter edge is no handrail, metres. */
const SHORTEST = 200;

/** The edges of forests and marshes as lines that can be followed, ids `edge:wood-3` (holes `edge:wood-3/2` …). To be made before areas are clipped: the cut is no edge. */
export function edgesOfAreas(features: readonly Feature[]): Feature[] {
  return features.flatMap((area) => {
    const kind = EDGE[area.kind];
    if (kind === undefined || area.geometry.type !== 'area') return [];
    // it is there as surely as its area, and as well placed
    const { exists, positionMetres } = area.given;
    const given = {
      ...(exists === undefined ? {} : { exists }),
      ...(positionMetres === undefined ? {} : { positionMetres }),
    };
    return area.geometry.rings.flatMap((points, i): Feature[] => {
      if (lineLength(points) < SHORTEST) return [];
      return [
        {
          id: i === 0 ? `edge:${area.id}` : `edge:${area.id}/${i + 1}`,
          kind,
          ...(area.name === undefined ? {} : { name: `edge of ${area.name}` }),
          geometry: { type: 'line', points },
          given,
          doubt: { ...defaultDoubt(kind), ...given },
          origin: 'derived',
        },
      ];
    });
  });
}
