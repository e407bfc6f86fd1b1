import type { Point } from '../math/plane.ts';
import type { Technique } from './leg.ts';

/** A leg as it is handed out: words and figures, degrees from grid north. The legs of a report are such. */
export interface WrittenLeg {
  readonly technique: Technique;
  readonly from: string;
  readonly to: string;
  readonly says: string;
  readonly gridBearingDegrees: number;
  readonly magneticBearingDegrees: number | null;
  readonly distanceMetres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  readonly doublePaces: number;
  readonly minutes: number;
  readonly path: readonly Point[];
}

/** A route as it is handed out, in metres of the terrain's CRS. The candidates of a report are such. */
export interface WrittenRoute {
  readonly letter: string;
  readonly name: string;
  readonly strategy: string;
  readonly distanceMetres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  readonly legs: readonly WrittenLeg[];
}

/** What the file says of itself. */
export interface WrittenAbout {
  readonly title: string;
  readonly creator: string;
  /** Sentence of conditions, attributions, cautions. */
  readonly remarks: readonly string[];
  readonly crs: string;
}
