import type { Conditions } from '../conditions/conditions.ts';
import type { Reading } from '../door/reading.ts';
import type { Doubt, Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import type { Point } from '../math/plane.ts';
import type { Limits, Party } from '../party/party.ts';
import type { DrawnRoute } from '../route/drawn.ts';

export type { DrawnLeg, DrawnRoute, PlaceName } from '../route/drawn.ts';

/** The thing looked for. */
export interface Target {
  readonly at: Point;
  readonly feature: Feature;
}

/** A task, read, checked and resolved against its terrain. Everything the engine needs; no file, no default left open. */
export interface Task {
  readonly name: string;
  readonly version: 1;
  readonly start: { readonly at: Point; readonly feature: Feature | null };
  readonly target: Target;
  readonly conditions: Conditions;
  readonly party: Party;
  readonly limits: Limits;
  /** Features of the terrain with the task's overrides applied. */
  readonly features: readonly Feature[];
  readonly overrides: Readonly<Record<string, Partial<Doubt>>>;
  readonly routes: readonly DrawnRoute[];
  readonly candidates: number;
  readonly trials: number;
  readonly seed: number;
  readonly seeing: 'definite' | 'lateral';
  /** Not of the task file: how the one who asks wants to read the answer. */
  readonly reading?: Reading;
}

export type { FeatureKind };
