import { type CheckedDocument, readDocument } from '../door/document.ts';
import { checkVersion } from '../door/versions.ts';
import { TASK_SHAPE, type WrittenTask } from './schema.ts';

const TASK_VERSIONS = [1];

/** A task file, checked in shape; `resolveTask` looks its names up on a terrain. */
export type TaskDocument = CheckedDocument<WrittenTask>;

/** Reads a task from YAML or JSON. `where` is the file's name for messages. Throws UserError. */
export function readTaskDocument(text: string, where: string): TaskDocument {
  const document = readDocument(text, where, TASK_SHAPE);
  checkVersion('task', document.value.version, TASK_VERSIONS, document.where);
  return document;
}

/** Files with drawn lines that a task names, relative to the task. */
export function lineFilesOf(document: TaskDocument): string[] {
  return (document.value.routes ?? []).flatMap((route) => (route.line === undefined ? [] : [route.line]));
}
