import type { Point } from '../../math/plane.ts';

/** A landform read off the elevation: a candidate, not a surveyed thing. */
export interface Landform {
  readonly kind: 'knoll' | 'flat-summit' | 'col' | 'spur' | 're-entrant' | 'break-of-slope';
  /** Its place, or the line of a break of slope. Metres of the CRS. */
  readonly at: Point | readonly Point[];
  /**
   * Metres by which it stands out: prominence of a knoll and of the knoll beyond a col; of a spur how far the ground drops on its
   * lower side across the slope, of a re-entrant how far it rises; of a break of slope how far the ground leaves the straight
   * continuation of the slope above, over the reach.
   */
  readonly reliefMetres: number;
}

/** Half the width at which spurs, re-entrants and breaks of slope are looked for, metres. Common practice, no source. */
export const REACH_METRES = 60;

/** The reach in whole cells, two at least. */
export function reachCells(cell: number): number {
  return Math.max(2, Math.round(REACH_METRES / cell));
}
