import type { Report } from '../../src/report/report.ts';
import { groundOf } from '../map/ground.ts';
import { printBar } from '../map/map-units.ts';
import type { Paper } from '../map/print-map.ts';
import { drawPrintMap, printSheets } from '../map/print-map.ts';
import { boundsOf, taskBounds } from '../map/view.ts';
import type { Make } from '../theme/element.ts';
import { maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import { thousands } from '../theme/words.ts';
import { northsText } from './places.ts';
import { wordsOf } from './words.ts';

/** What A4 leaves for a map inside 10 mm of margin, a line above it and four below. */
const A4: { upright: Paper; across: Paper } = {
  upright: { widthMm: 188, heightMm: 245 },
  across: { widthMm: 275, heightMm: 158 },
};

/** The map of a task at its true scale on as many sheets of A4 as it needs. */
export function renderMapPrint(report: Report, scale: number, css: string): string {
  const words = wordsOf(report);
  const document = newDocument(words.reading.language);
  const make = maker(document);
  const { pages, across } = mapPages(report, scale, true, document, make);
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('title', {}, titleText(words.print.title(report.task.name, scale))),
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
  const words = wordsOf(report);
  const { print: say } = words;
  const ground = groundOf(report);
  // Where routes lead must not show in what the sheet covers.
  const shown = routes ? taskBounds(report) : boundsOf([report.task.start.at, report.task.target.at]);
  const sheets = printSheets(report, shown, scale, A4);
  const pages = sheets.map((sheet, i) => {
    const { map, interval } = drawPrintMap(
      { report, ground, sheet, routes },
      { document, id: `sheet-${scale}-${i}`, words: words.figures },
    );
    const title = sheets.length === 1 ? report.task.name : say.sheet(report.task.name, i + 1, sheets.length);
    return make(
      'section',
      { class: 'map-page', 'aria-label': title, tabindex: 0 },
      make(
        'p',
        { class: 'map-title' },
        make('b', {}, title),
        ` ${report.task.terrain}${report.task.invented ? words.invented : ''}`,
      ),
      map,
      make(
        'p',
        { class: 'map-foot' },
        [
          say.foot(thousands(scale), (printBar(scale, words.reading.units).metres / scale) * 1000),
          ...(interval === null ? [] : [say.contours(interval)]),
          northsText(report, words),
          say.doubt,
          report.candidates.some((c) => c.hazard === 'not assessed') ? say.unassessed : say.hatched,
          ...report.attributions,
        ].join(' '),
      ),
    );
  });
  return { pages, across: (sheets[0]?.widthMm ?? 0) > A4.upright.widthMm + 1 };
}
