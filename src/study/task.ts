import type { Conditions } from '../conditions/conditions.ts';
import type { Doubt, Feature } from '../features/feature.ts';
import type { FeatureKind } from '../features/kinds.ts';
import type { Point } from '../math/plane.ts';
import type { Limits, Party } from '../party/party.ts';
import type { Technique } from '../route/leg.ts';

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
}

export interface DrawnRoute {
  readonly name: string;
  readonly legs?: readonly DrawnLeg[];
  /** A line in the terrain's CRS that is to be interpreted into legs. */
  readonly line?: readonly Point[];
}

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
}

export type { FeatureKind };
