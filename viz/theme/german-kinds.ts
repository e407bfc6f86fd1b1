import { GERMAN_NOUNS, labelOf } from '../../src/features/german-kinds.ts';
import type { FeatureKind } from '../../src/features/kinds.ts';

/** A kind of feature in German. */
export function germanKind(kind: FeatureKind): string {
  return labelOf(GERMAN_NOUNS[kind]);
}
