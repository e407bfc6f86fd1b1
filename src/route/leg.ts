import type { Point } from '../math/plane.ts';

export const TECHNIQUES = ['handrail', 'bearing', 'timing', 'aim-off', 'contour', 'sight', 'box'] as const;
export type Technique = (typeof TECHNIQUES)[number];

/** A leg as planned on the map: what is said aloud before setting off. All distances in metres, angles in radians from grid north. */
export interface Leg {
  readonly technique: Technique;
  /** Planned ends, map places. */
  readonly from: Point;
  readonly to: Point;
  /** Mapped feature at `to` that confirms the leg (attack point, junction, the target); absent for a point in the open. */
  readonly toFeature?: string;
  /** Plan geometry, `from` first, `to` last. */
  readonly path: readonly Point[];
  /** Line followed (handrail) or walked on to (aim-off). */
  readonly line?: string;
  /** Handrail: metres along `line` from its first vertex, start and end. */
  readonly fromAlong?: number;
  readonly toAlong?: number;
  /** Aim-off: the place on the line that is wanted, the side of it aimed at facing the way one walks, and by how much. */
  readonly wanted?: Point;
  readonly side?: 'left' | 'right';
  readonly offsetMetres?: number;
  /** Features met on the way in order, with planned running metres. */
  readonly ticks: readonly { readonly feature: string; readonly atMetres: number }[];
  /** A line behind the end that stops an overrun. */
  readonly catching?: { readonly line: string; readonly beyondMetres: number };
  /** True when the members of the row that `toFeature` belongs to are counted on the way, and the count ends the leg. */
  readonly counting?: boolean;
  /** True for the endgame's fine part: walked with care, searched at its end. */
  readonly fine: boolean;
}

/** The figures of a leg that people read. */
export interface LegFigures {
  readonly gridBearing: number;
  readonly distanceMetres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  readonly doublePaces: number;
  /** Planned minutes of a party that makes no error. */
  readonly minutes: number;
}

export interface Route {
  readonly id: string;
  readonly name: string;
  readonly origin: 'drawn' | 'found';
  /** One plain phrase: "aim off to the stream, then up to its end". */
  readonly strategy: string;
  readonly legs: readonly Leg[];
}
