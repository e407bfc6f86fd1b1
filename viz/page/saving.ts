import type { ReportPages } from '../../src/cli/node/report-page.ts';
import { reportFiles } from '../../src/cli/report-files.ts';
import type { Report } from '../../src/report/report.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import { describedBy, freshId } from './folder.ts';
import type { GroundFiles, NamedBytes } from './messages.ts';
import type { Suggestion } from './work.ts';
import { zipped } from './zip.ts';

/** Hands the terrain folder with its task to the reader as one archive. */
export function saveFolder(folder: GroundFiles, task: WrittenTask): void {
  const { terrainJson, files, features } = folder;
  const { features: called = 'features.geojson' } = describedBy(folder);
  const all = [
    text('terrain.json', terrainJson),
    ...files,
    ...(features === null ? [] : [text(called, features)]),
    text(`${stemOf(task)}.task.json`, taskText(task)),
  ];
  save(`${stemOf(task)}.zip`, zipped(all), 'application/zip');
}

/** How much of a report is saved: its page alone, or all that the program writes. */
export type ReportSize = 'page' | 'sheets';

/** Hands the report to the reader, drawn by the same renderer as the program's. Returns the name of the file. */
export function saveReport(report: Report, task: WrittenTask, size: ReportSize): string {
  const pages = need('report.js') as ReportPages;
  if (size === 'page') {
    const name = `${stemOf(task)}-report.html`;
    save(name, pages.renderReport(report), 'text/html');
    return name;
  }
  const name = `${stemOf(task)}-report.zip`;
  const files = [...reportFiles(report, pages)];
  save(name, zipped(files.map(([file, said]) => text(file, said))), 'application/zip');
  return name;
}

export function saveTask(task: WrittenTask): void {
  save(`${stemOf(task)}.task.json`, taskText(task), 'application/json');
}

export function saveSuggestion({ opened: _, ...rest }: Suggestion): void {
  const name = `${freshId('suggestion', rest.who, new Set())}.json`;
  save(name, JSON.stringify({ mistwise: 'suggestion', ...rest }), 'application/json');
}

function text(name: string, said: string): NamedBytes {
  return { name, bytes: new TextEncoder().encode(said) };
}

function taskText(task: WrittenTask): string {
  return `${JSON.stringify({ ...task, terrain: '.' }, null, 2)}\n`;
}

function stemOf({ name = 'task' }: WrittenTask): string {
  return freshId('task', name, new Set()).slice(0, 60);
}

function save(name: string, content: string | Uint8Array<ArrayBuffer>, type: string): void {
  const url = URL.createObjectURL(new Blob([content], { type }));
  const link = Object.assign(document.createElement('a'), { href: url, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
