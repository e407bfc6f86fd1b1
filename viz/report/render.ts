import type { Report } from '../../src/report/report.ts';
import { groundOf } from '../map/ground.ts';
import { reportSheet } from '../map/map.ts';
import { maker, titleText } from '../theme/element.ts';
import { newDocument } from '../theme/node-document.ts';
import type { Writing } from './page-parts.ts';
import { WIDE } from './page-parts.ts';
import { assumptionsSection, cautionsSection, closing, dataSection } from './sections/basis.ts';
import { endPointsSection, foundBySection, outcomesSection, timeSuccessSection } from './sections/charts.ts';
import { legsSection } from './sections/legs.ts';
import { mapSection } from './sections/map-section.ts';
import { opening } from './sections/opening.ts';
import { walksSection } from './sections/walks.ts';
import { whatHelpsSection } from './sections/what-helps.ts';
import { wordsOf } from './words.ts';

export interface Assets {
  readonly css: string;
  readonly script: string;
}

/**
 * The report as one HTML file that needs nothing else: no network, no script. The script only lights up a route everywhere when it
 * is pointed at somewhere, and steps through single attempts.
 */
export function renderReport(report: Report, assets: Assets): string {
  const words = wordsOf(report);
  const document = newDocument(words.reading.language);
  const make = maker(document);
  const writing: Writing = { report, document, make, words };
  const { element: sheetElement, sheet } = reportSheet(report, groundOf(report), {
    document,
    width: WIDE,
    id: 'ground',
  });
  document.head.append(
    make('meta', { charset: 'utf-8' }),
    make('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    make('meta', { name: 'color-scheme', content: 'light dark' }),
    make('title', {}, titleText(`${report.task.name} · mistwise`)),
    make('style', {}, assets.css),
  );
  document.body.append(
    sheetElement,
    make(
      'main',
      {},
      opening(writing),
      mapSection(writing, sheet),
      foundBySection(writing),
      timeSuccessSection(writing),
      outcomesSection(writing),
      legsSection(writing),
      endPointsSection(writing, sheet),
      whatHelpsSection(writing),
      walksSection(writing, sheet),
      assumptionsSection(writing),
      cautionsSection(writing),
      dataSection(writing),
    ),
    closing(writing),
    make('script', {}, assets.script),
  );
  return document.toString();
}
