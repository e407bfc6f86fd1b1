import type { Report } from '../../report/report.ts';

/** What makes files to look at out of the document alone. */
export interface ReportPages {
  readonly renderReport: (report: Report) => string;
  /** Route cards, map prints and the task sheet. */
  readonly renderSheets: (report: Report) => readonly { readonly name: string; readonly html: string }[];
}

/** The report's HTML templates, built apart from the program because they are made of pictures and the engine is not. */
export async function loadReportPages(): Promise<ReportPages> {
  const file = new URL('report-render.js', import.meta.url).href;
  return (await import(file)) as ReportPages;
}
