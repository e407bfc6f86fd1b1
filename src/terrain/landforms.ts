import type { Raster } from '../grid/raster.ts';
import { knollsAndCols } from './landforms/knolls.ts';
import type { Landform } from './landforms/landform.ts';
import { slopeBreaks } from './landforms/slope-breaks.ts';
import { spursAndReentrants } from './landforms/spurs.ts';

export type { Landform };

/** Relief in metres from which a landform is worth a name on a map. Common practice, no source. */
const LEAST_METRES = 5;

/**
 * Knolls, flat summits, cols, spurs, re-entrants and breaks of slope of an elevation raster, as plain candidates, those that stand out
 * most first within each kind.
 */
export function landforms(elevation: Raster, least: number = LEAST_METRES): Landform[] {
  const found = [
    ...knollsAndCols(elevation, least),
    ...spursAndReentrants(elevation, least),
    ...slopeBreaks(elevation),
  ];
  const kinds = ['knoll', 'flat-summit', 'col', 'spur', 're-entrant', 'break-of-slope'];
  return found
    .map((landform, i) => ({ landform, i }))
    .sort(
      (a, b) =>
        kinds.indexOf(a.landform.kind) - kinds.indexOf(b.landform.kind) ||
        b.landform.reliefMetres - a.landform.reliefMetres ||
        a.i - b.i,
    )
    .map(({ landform }) => landform);
}
