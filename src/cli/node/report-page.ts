import type { Report } from '../../report/report.ts';

/** The report's HTML template, built apart from the program because it is made of pictures and the engine is not. */
export async function loadReportPage(): Promise<(report: Report) => string> {
  const file = new URL('report-render.js', import.meta.url).href;
  const template = (await import(file)) as { renderReport: (report: Report) => string };
  return template.renderReport;
}
