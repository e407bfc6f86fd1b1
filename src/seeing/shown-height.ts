import type { FeatureKind } from '../features/kinds.ts';

/** Metres of an eye above the ground. */
export const EYE_METRES = 1.6;

/** Metres that a thing stands above the ground, where that is more than nothing. Common practice, no published source. */
const SHOWN_METRES: Readonly<Partial<Record<FeatureKind, number>>> = {
  wall: 1.3,
  'ruined-wall': 0.6,
  fence: 1.1,
  'forest-edge': 8,
  forest: 8,
  cliff: 5,
  crag: 4,
  boulder: 1.5,
  cairn: 1,
  ruin: 2,
  fold: 1.3,
  post: 1.2,
  'boundary-stone': 0.7,
  gate: 1.2,
  stile: 1.3,
  'wall-corner': 1.3,
  'fence-corner': 1.1,
  'steep-ground': 2,
  bridge: 1,
  building: 5,
  tree: 6,
};

export function shownMetres(kind: FeatureKind): number {
  return SHOWN_METRES[kind] ?? 0;
}
