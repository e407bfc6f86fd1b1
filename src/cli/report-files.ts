import type { Report } from '../report/report.ts';
import { csvOf } from '../route/csv.ts';
import { geojsonOf } from '../route/geojson.ts';
import { gpxOf } from '../route/gpx.ts';

/** The files of a report, by name. `page` makes the report's HTML from the document alone. */
export function reportFiles(report: Report, page: (report: Report) => string): Map<string, string> {
  const about = {
    title: report.task.name,
    creator: report.generator,
    remarks: [report.sentence, ...report.attributions, ...report.cautions],
    crs: report.ground.crs,
  };
  return new Map([
    ['report.json', jsonOf(report)],
    ['index.html', page(report)],
    ['routes.gpx', gpxOf(report.candidates, about)],
    ['routes.geojson', geojsonOf(report.candidates, about)],
    ['routes.csv', csvOf(report.candidates)],
  ]);
}

export function jsonOf(report: Report): string {
  return `${JSON.stringify(report)}\n`;
}
