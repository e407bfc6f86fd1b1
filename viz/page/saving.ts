import type { WrittenTask } from '../../src/study/schema.ts';
import { describedBy, freshId } from './folder.ts';
import type { GroundFiles, NamedBytes } from './messages.ts';
import type { Suggestion } from './work.ts';
import { zipped } from './zip.ts';

/** Hands the terrain folder with its task to the reader as one archive. */
export function saveFolder(folder: GroundFiles, task: WrittenTask): void {
  const { terrainJson, files, features } = folder;
  const text = (name: string, said: string): NamedBytes => ({ name, bytes: new TextEncoder().encode(said) });
  const { features: called = 'features.geojson' } = describedBy(folder);
  const all = [
    text('terrain.json', terrainJson),
    ...files,
    ...(features === null ? [] : [text(called, features)]),
    text(`${stemOf(task)}.task.json`, taskText(task)),
  ];
  save(`${stemOf(task)}.zip`, zipped(all), 'application/zip');
}

export function saveTask(task: WrittenTask): void {
  save(`${stemOf(task)}.task.json`, taskText(task), 'application/json');
}

export function saveSuggestion({ opened: _, ...rest }: Suggestion): void {
  const name = `${freshId('suggestion', rest.who, new Set())}.json`;
  save(name, JSON.stringify({ mistwise: 'suggestion', ...rest }), 'application/json');
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
