import type { Report } from '../../src/report/report.ts';
import charts from '../charts/charts.css?inline';
import map from '../map/map.css?inline';
import theme from '../theme/theme.css?inline';
import script from './highlight.js?raw';
import { renderReport as renderWith } from './render.ts';
import page from './report.css?inline';

/** The report as one HTML file, style and script inside. What the command line bundles as `dist/report-render.js`. */
export function render(report: Report): string {
  return renderWith(report, { css: [theme, charts, map, page].join('\n'), script });
}

export { render as renderReport };
