import type { FeatureKind } from './kinds.ts';

/** Families of lines: within one, ends that meet are one line and three arms make a junction. */
export type LineFamily = 'way' | 'water' | 'barrier' | 'form';

const FAMILY: Readonly<Partial<Record<FeatureKind, LineFamily>>> = {
  track: 'way',
  path: 'way',
  'right-of-way': 'way',
  trod: 'way',
  stream: 'water',
  'small-stream': 'water',
  wall: 'barrier',
  'ruined-wall': 'barrier',
  fence: 'barrier',
  'forest-edge': 'form',
  'marsh-edge': 'form',
  ridge: 'form',
  'break-of-slope': 'form',
};

/** Family of a line that can be followed on foot; null for every other kind (a cliff is a hazard, not a handrail). */
export function lineFamily(kind: FeatureKind): LineFamily | null {
  return FAMILY[kind] ?? null;
}
