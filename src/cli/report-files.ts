import type { Report } from '../report/report.ts';
import { csvOf } from '../route/csv.ts';
import { geojsonOf } from '../route/geojson.ts';
import { gpxOf } from '../route/gpx.ts';
import type { ReportPages } from './node/report-page.ts';

/** The files of a report, by name: the report itself, its document, the routes for other programs, and what is handed out. */
export function reportFiles(report: Report, pages: ReportPages): Map<string, string> {
  const about = {
    title: report.task.name,
    creator: report.generator,
    remarks: [report.sentence, ...report.attributions, ...report.cautions],
    crs: report.ground.crs,
  };
  return new Map([
    ['report.json', jsonOf(report)],
    ['index.html', pages.renderReport(report)],
    ['routes.gpx', gpxOf(report.candidates, about)],
    ['routes.geojson', geojsonOf(report.candidates, about)],
    ['routes.csv', csvOf(report.candidates)],
    ...pages.renderSheets(report).map(({ name, html }): [string, string] => [name, html]),
  ]);
}

export function jsonOf(report: Report): string {
  return `${JSON.stringify(report)}\n`;
}
