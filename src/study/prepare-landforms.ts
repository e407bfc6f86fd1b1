import { placeOf } from '../features/areas.ts';
import { defaultDoubt, doubtOf } from '../features/doubt.ts';
import type { Feature, Geometry } from '../features/feature.ts';
import { indexFeatures, nearFeatures } from '../features/index-near.ts';
import type { Raster } from '../grid/raster.ts';
import { type Point, snapPoint } from '../math/plane.ts';
import { type Landform, landforms } from '../terrain/landforms.ts';

/** So many are kept, those that stand out most: 4 on each square kilometre of a ground of 3000 km². */
const MOST = 12_000;
/** Breaks of slope are only read off cells as fine as this, metres. */
const FINE = 25;
/** What people call them; with their number, so that a sentence says which of many is meant. */
const SAID: Readonly<Record<Landform['kind'], string>> = {
  knoll: 'knoll',
  'flat-summit': 'summit',
  col: 'col',
  spur: 'spur',
  're-entrant': 'hollow',
  'break-of-slope': 'break of slope',
};
/** A mapped one of the kind nearer than this is the same, metres. */
const SAME = 60;

/**
 * Landforms of the elevation as features, where none of the kind is mapped: knolls, flat summits, cols, spurs, re-entrants, and breaks of
 * slope on fine cells. Their place is known no better than the cells allow.
 */
export function landformFeatures(elevation: Raster, mapped: readonly Feature[]): Feature[] {
  const index = indexFeatures(mapped);
  const known = (kind: string, at: Point) =>
    nearFeatures(index, at[0], at[1], SAME).some((i) => mapped[i]!.kind === kind);
  const found = landforms(elevation).filter(
    ({ kind }) => kind !== 'break-of-slope' || elevation.cell <= FINE,
  );
  const kept = [...found].sort((a, b) => b.reliefMetres - a.reliefMetres).slice(0, MOST);
  const counts = new Map<string, number>();
  const taken = new Set(mapped.map((f) => f.id));
  const features: Feature[] = [];
  for (const landform of kept) {
    const feature = featureOf(landform, elevation.cell);
    if (known(landform.kind, placeOf(feature))) continue;
    let n = (counts.get(landform.kind) ?? 0) + 1;
    while (taken.has(`${landform.kind}-${n}`)) n++;
    counts.set(landform.kind, n);
    features.push({ ...feature, id: `${landform.kind}-${n}`, name: `${SAID[landform.kind]} ${n}` });
  }
  return features;
}

function featureOf({ kind, at }: Landform, cell: number): Feature {
  const geometry: Geometry =
    typeof at[0] === 'number'
      ? { type: 'point', at: snapPoint(at as Point) }
      : { type: 'line', points: (at as readonly Point[]).map(snapPoint) };
  const given = { positionMetres: Math.max(defaultDoubt(kind).positionMetres, Math.round(0.4 * cell)) };
  return {
    id: kind,
    kind,
    geometry,
    given,
    doubt: doubtOf(kind, given),
    origin: 'derived',
  };
}
