import type { Point } from '../math/plane.ts';
import type { FeatureKind } from './kinds.ts';

export type Geometry =
  | { readonly type: 'point'; readonly at: Point }
  | { readonly type: 'line'; readonly points: readonly Point[] }
  | { readonly type: 'area'; readonly rings: readonly (readonly Point[])[] };

/** How much a mapped feature can be trusted, and how it shows itself. Defaults per kind: `kinds.ts`. */
export interface Doubt {
  /** Chance that it is there on the day, 0..1. */
  readonly exists: number;
  /** SD of its place in x and in y, metres. */
  readonly positionMetres: number;
  /** R0: distance at which it can be made out in good light, metres. */
  readonly rangeMetres: number;
  /** Given sweep width in metres; overrides what follows from the range. */
  readonly sweepWidthMetres?: number;
  /** c: share of the visibility at which it still stands out, .5 dull, .8 contrasty, 1 large masses. */
  readonly contrast: number;
  /** Class of visibility (Koester 2014). */
  readonly visibility: 'high' | 'medium' | 'low';
  /** Chance that on the ground it looks like something of another class (a path that braids, a boulder among several). */
  readonly alike: number;
  /** Chance per gap of an unmapped extra member, for features in a row. */
  readonly extraPerGap: number;
  /** ISO date it was last seen; the chance to exist decays from then. */
  readonly lastSeen?: string;
  /** Kind of stream head: a spring-fed end hardly moves. */
  readonly head?: 'spring-fed' | 'saturation';
}

/** As much of a feature as it takes to call it by its name. */
export type Called = Pick<Feature, 'id' | 'kind' | 'name'>;

export interface Feature {
  readonly id: string;
  readonly kind: FeatureKind;
  readonly name?: string;
  readonly geometry: Geometry;
  /** What the file itself says of its doubt; empty when it says nothing. */
  readonly given: Partial<Doubt>;
  /** Defaults of the kind, overridden by `given`, overridden by the task. */
  readonly doubt: Doubt;
  /** Features of one row (posts, stones) share its id, in order of `rowPlace`. */
  readonly row?: string;
  readonly rowPlace?: number;
  /** Where it comes from: mapped by a source, drawn by the user, or derived from the elevation. */
  readonly origin: 'mapped' | 'drawn' | 'derived';
}
