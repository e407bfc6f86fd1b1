import type { FeatureKind } from '../features/kinds.ts';

/**
 * λ: how often a party loses a line that it follows, per km, in good visibility by day and for the middle level of skill.
 * Common practice, no source. Multiplied by `handrailFactor` of the day and `handrailLossPerKm` of the party.
 */
const PER_KM: Readonly<Partial<Record<FeatureKind, number>>> = {
  wall: 0.01,
  'ruined-wall': 0.03,
  fence: 0.03,
  track: 0.02,
  path: 0.05,
  'right-of-way': 0.8,
  trod: 0.8,
  stream: 0.1,
  'small-stream': 0.1,
  ridge: 0.1,
  'forest-edge': 0.1,
  'marsh-edge': 0.2,
  'break-of-slope': 0.2,
};

/** λ per km of a kind of line; what no party would call a line is lost as easily as a trod. */
export function handrailLossPerKm(kind: FeatureKind): number {
  return PER_KM[kind] ?? 0.8;
}
