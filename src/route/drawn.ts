import type { Conditions } from '../conditions/conditions.ts';
import type { Reading } from '../door/reading.ts';
import type { Feature } from '../features/feature.ts';
import type { Point } from '../math/plane.ts';
import type { Limits, Party } from '../party/party.ts';
import type { Technique } from './leg.ts';

/** A place as a person names it; exactly one way. */
export type PlaceName =
  | 'start'
  | 'target'
  | { readonly feature: string }
  | { readonly at: Point }
  | { readonly lonLat: readonly [number, number] }
  | { readonly grid: string };

/** A leg as it stands in the task file, places not yet resolved. */
export interface DrawnLeg {
  readonly technique: Technique;
  readonly to?: PlaceName;
  readonly along?: string;
  readonly line?: string;
  readonly towards?: string;
  readonly metres?: number;
  readonly side?: 'left' | 'right';
  readonly ticks?: readonly string[];
  readonly catching?: string;
  /** The members of the row that ends the leg are counted on the way; the count ends it. */
  readonly counting?: boolean;
}

export interface DrawnRoute {
  readonly name: string;
  readonly legs?: readonly DrawnLeg[];
  /** A line in the terrain's CRS that is to be interpreted into legs. */
  readonly line?: readonly Point[];
}

/** What a route must know of its task: where from, what for, who walks and on what day. A `Task` is one. */
export interface Errand {
  readonly start: { readonly at: Point; readonly feature: Feature | null };
  readonly target: { readonly at: Point; readonly feature: Feature };
  readonly conditions: Conditions;
  readonly party: Party;
  readonly limits: Limits;
  /** In what language and units its sentences are written; English and metres where it is not said. No figure depends on it. */
  readonly reading?: Reading;
}
