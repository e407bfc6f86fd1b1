import type { Report } from '../../src/report/report.ts';
import { groundOf } from '../map/ground.ts';
import type { Paper } from '../map/print-map.ts';
import { barMetres, drawPrintMap, printSheets } from '../map/print-map.ts';
import { boundsOf, taskBounds } from '../map/view.ts';
import type { Make } from '../theme/element.ts';
import { maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { thousands } from '../theme/words.ts';
import { northsText } from './places.ts';

/** What A4 leaves for a map inside 10 mm of margin, a line above it and three below. */
const A4: { upright: Paper; across: Paper } = {
  upright: { widthMm: 188, heightMm: 250 },
  across: { widthMm: 275, heightMm: 163 },
};

/** The map of a task at its true scale on as many sheets of A4 as it needs. */
export function renderMapPrint(report: Report, scale: number, css: string): string {
  const document = newDocument();
  const make = maker(document);
  const { pages, across } = mapPages(report, scale, true, document, make);
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, titleText(`${report.task.name}, map 1:${scale}`)),
    make('style', {}, `${css}\n@page { size: A4 ${across ? 'landscape' : 'portrait'}; margin: 10mm; }`),
  );
  document.body.append(make('main', {}, ...pages));
  return document.toString();
}

export function mapPages(
  report: Report,
  scale: number,
  routes: boolean,
  document: Document,
  make: Make,
): { pages: HTMLElement[]; across: boolean } {
  const ground = groundOf(report);
  // Where routes lead must not show in what the sheet covers.
  const shown = routes ? taskBounds(report) : boundsOf([report.task.start.at, report.task.target.at]);
  const sheets = printSheets(report, shown, scale, A4);
  const pages = sheets.map((sheet, i) => {
    const title =
      sheets.length === 1 ? report.task.name : `${report.task.name}, sheet ${i + 1} of ${sheets.length}`;
    return make(
      'section',
      { class: 'map-page', 'aria-label': title, tabindex: 0 },
      make(
        'p',
        { class: 'map-title' },
        make('b', {}, title),
        ` ${report.task.terrain}${report.task.invented ? ', invented ground' : ''}`,
      ),
      drawPrintMap({ report, ground, sheet, routes }, { document, id: `sheet-${scale}-${i}` }),
      make(
        'p',
        { class: 'map-foot' },
        `1:${thousands(scale)} if the bar measures ${(barMetres(scale) / scale) * 1000} mm; grid north is up. ${northsText(report)} Lines and signs: solid where a feature is there in 90 of 100 or more, broken from 60, dotted below. ${hazards(report)} ${report.attributions.join(' ')}`,
      ),
    );
  });
  return { pages, across: (sheets[0]?.widthMm ?? 0) > A4.upright.widthMm + 1 };
}

function hazards(report: Report): string {
  return report.candidates.some((c) => c.hazard === 'not assessed')
    ? 'Hazards not assessed: what is absent may still be there.'
    : 'Hatched: steep or barred ground in the data.';
}
