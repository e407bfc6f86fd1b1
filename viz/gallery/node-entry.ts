import type { Report } from '../../src/report/report.ts';
import charts from '../charts/charts.css?inline';
import map from '../map/map.css?inline';
import theme from '../theme/theme.css?inline';
import page from './gallery.css?inline';
import { renderGallery } from './gallery.ts';

/** The gallery as one HTML file, its style inside. */
export function gallery(report: Report, varied: Report): string {
  return renderGallery(report, varied, [theme, charts, map, page].join('\n'));
}
