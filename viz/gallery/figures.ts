import type { Report } from '../../src/report/report.ts';
import { foundBy } from '../charts/found-by.ts';
import { hundredArrays } from '../charts/hundred.ts';
import { legStrip, sharedHeights } from '../charts/strip.ts';
import { timeSuccess } from '../charts/time-success.ts';
import { endPointPanels } from '../map/end-points.ts';
import { drawMap } from '../map/map.ts';
import { drawSampleWalk } from '../map/sample-walk.ts';
import type { Sheet } from '../map/sheet-use.ts';
import type { FigureOptions } from '../theme/figure.ts';

export interface GalleryFigure {
  /** Names the file of its snapshot. */
  readonly name: string;
  readonly says: string;
  readonly draw: (options: FigureOptions) => SVGSVGElement;
}

/** Every drawing of the report, each once: the gallery shows them, the tests compare them. */
export function galleryFigures(report: Report, varied: Report, sheet: Sheet): readonly GalleryFigure[] {
  const { candidates, unbeaten } = report;
  const strip = (index: number) => (options: FigureOptions) =>
    legStrip(
      {
        candidate: candidates[index]!,
        features: report.features,
        fullMetres: Math.max(...candidates.map((c) => c.distanceMetres)),
        heights: sharedHeights(candidates),
        cloudBaseMetres: report.conditions.visibility.cloudBase,
      },
      options,
    );
  return [
    { name: 'map', says: 'The map of a task', draw: (o) => drawMap({ report, sheet }, o) },
    {
      name: 'found-by',
      says: 'Share found within so many minutes',
      draw: (o) => foundBy({ candidates, unbeaten, limitMinutes: report.limits.minutes }, o),
    },
    {
      name: 'time-success',
      says: 'Time against success, assumptions not varied',
      draw: (o) => timeSuccess({ candidates, unbeaten }, o),
    },
    {
      name: 'time-success-varied',
      says: 'Time against success, few attempts, assumptions varied',
      draw: (o) => timeSuccess({ candidates: varied.candidates, unbeaten: varied.unbeaten }, o),
    },
    {
      name: 'hundred',
      says: 'How 100 parties end',
      draw: (o) => hundredArrays({ candidates: candidates.slice(0, 3), unbeaten }, o),
    },
    { name: 'strip', says: 'A route leg by leg', draw: strip(0) },
    { name: 'strip-many-legs', says: 'A route of many legs', draw: strip(candidates.length - 1) },
    {
      name: 'end-points',
      says: 'Where attempts ended',
      draw: (o) => endPointPanels({ report: { ...report, candidates: candidates.slice(0, 2) }, sheet }, o),
    },
    {
      name: 'sample-walk',
      says: 'One attempt, true and believed',
      draw: (o) =>
        drawSampleWalk({ report, candidate: candidates[0]!, walk: candidates[0]!.walks![0]!, sheet }, o),
    },
  ];
}
