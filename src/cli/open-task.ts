import type { Reading } from '../door/reading.ts';
import type { Feature } from '../features/feature.ts';
import type { Point } from '../math/plane.ts';
import { readLine } from '../route/read-line.ts';
import { lineFilesOf, readTaskDocument, type TaskDocument } from '../study/read-task.ts';
import { resolveTask } from '../study/resolve-task.ts';
import type { Task } from '../study/task.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import { beside, isFolder, readText } from './node/files.ts';
import { openTerrain } from './open-terrain.ts';

/** A task with all that it stands on, read from files. */
export interface OpenedTask {
  readonly task: Task;
  readonly terrain: Terrain;
  readonly relief: Relief;
  /** As the files say, without the task's doubts. */
  readonly features: readonly Feature[];
}

/** What the command line says in place of the task file. */
export interface Instead {
  readonly trials?: number | undefined;
  readonly seed?: number | undefined;
  readonly reading?: Reading;
}

/** Reads a task file, the terrain it names and the lines drawn for it. Throws UserError about the first thing wrong. */
export async function openTask(path: string, instead: Instead = {}): Promise<OpenedTask> {
  const document = readTaskDocument(await readText(path, 'task'), path);
  const folder = beside(path, document.value.terrain);
  if (!(await isFolder(folder))) {
    throw document.problem(['terrain'], {
      what: 'there is no such folder',
      got: folder,
      expected: 'the folder of a terrain, relative to the task file',
    });
  }
  const { terrain, features, relief } = await openTerrain(folder);
  const lines = await drawnLines(document, path, terrain.crs);
  const task = resolveTask(document, { terrain, features, lineOf: (file) => lines.get(file) ?? [] });
  const { trials = task.trials, seed = task.seed, reading } = instead;
  return { task: { ...task, trials, seed, ...(reading && { reading }) }, terrain, relief, features };
}

async function drawnLines(
  document: TaskDocument,
  path: string,
  crs: string,
): Promise<Map<string, readonly Point[]>> {
  const lines = new Map<string, readonly Point[]>();
  for (const name of lineFilesOf(document)) {
    const file = beside(path, name);
    lines.set(name, readLine(await readText(file, 'drawn line'), file, crs));
  }
  return lines;
}
