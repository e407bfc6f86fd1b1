import {
  accessSync,
  constants,
  existsSync,
  mkdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { UserError } from '../../door/user-error.ts';

/** File names and what goes into them. */
export type Files = ReadonlyMap<string, string | Uint8Array>;

/** Complains before any work is done when a folder could not be written. */
export function checkWritable(folder: string): void {
  const path = resolve(folder);
  if (existsSync(path) && !statSync(path).isDirectory()) {
    throw new UserError({ what: 'the output would go into a file', where: folder, expected: 'a folder' });
  }
  const holder = nearestExisting(path);
  try {
    if (!statSync(holder).isDirectory()) throw new Error('not a folder');
    accessSync(holder, constants.W_OK);
  } catch {
    throw new UserError({ what: 'no folder can be written here', where: folder, expected: 'another --out' });
  }
}

/**
 * Writes the files into a folder beside the wanted one, then puts them in place by renaming, so that whoever looks sees
 * the old files or the new ones, never half of one. Other files of an existing folder stay.
 */
export function writeFolder(folder: string, files: Files): void {
  const path = resolve(folder);
  const exists = existsSync(path);
  const holder = exists ? path : dirname(path);
  const firstMade = exists ? null : firstMissing(holder);
  mkdirSync(holder, { recursive: true });
  const part = join(holder, `.${basename(path)}-${process.pid}.part`);
  const forget = () => {
    rmSync(part, { recursive: true, force: true });
    if (firstMade !== null && !existsSync(path)) rmSync(firstMade, { recursive: true, force: true });
  };
  // Synchronous from here on: a signal is only heard when all of it is done.
  try {
    rmSync(part, { recursive: true, force: true });
    mkdirSync(part);
    for (const [name, content] of files) writeFileSync(join(part, name), content);
    if (exists) for (const name of files.keys()) renameSync(join(part, name), join(path, name));
    else renameSync(part, path);
  } catch (error) {
    forget();
    throw new UserError({
      what: `the output cannot be written: ${(error as NodeJS.ErrnoException).code ?? String(error)}`,
      where: folder,
      expected: 'a folder with room and permission to write',
    });
  }
  if (exists) rmSync(part, { recursive: true, force: true });
}

function nearestExisting(path: string): string {
  return existsSync(path) ? path : nearestExisting(dirname(path));
}

/** The outermost folder that has to be made for `path` to exist; null when none. */
function firstMissing(path: string): string | null {
  if (existsSync(path)) return null;
  return firstMissing(dirname(path)) ?? path;
}
