import type { Report } from '../../src/report/report.ts';
import charts from '../charts/charts.css?inline';
import map from '../map/map.css?inline';
import theme from '../theme/theme.css?inline';
import card from './card.css?inline';
import { renderCard as cardWith } from './card.ts';
import highlight from './highlight.js?raw';
import { renderMapPrint } from './map-pages.ts';
import print from './print.css?inline';
import { renderReport as reportWith } from './render.ts';
import page from './report.css?inline';
import steps from './steps.js?raw';
import { renderTaskSheet } from './task-sheet.ts';

const join = (...sheets: readonly string[]) => sheets.join('\n');

/** The report as one HTML file, style and script inside. */
export function renderReport(report: Report): string {
  return reportWith(report, { css: join(theme, charts, map, page), script: join(highlight, steps) });
}

/** What is handed out beside the report: a card for each route, the map at two scales, the task without answers. */
export function renderSheets(report: Report): { readonly name: string; readonly html: string }[] {
  return [
    ...report.candidates.map((c) => ({
      name: `card-${c.letter.toLowerCase()}.html`,
      html: cardWith(report, c, join(theme, card)),
    })),
    ...[25_000, 10_000].map((scale) => ({
      name: `map-${scale}.html`,
      html: renderMapPrint(report, scale, join(theme, map, print)),
    })),
    { name: 'task-sheet.html', html: renderTaskSheet(report, join(theme, map, print)) },
  ];
}
