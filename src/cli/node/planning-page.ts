import { copyFileSync, existsSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { UserError } from '../../door/user-error.ts';

/** The planning page as the build makes it, beside the program. Throws UserError where it has not been built. */
export function planningPage(): string {
  const path = fileURLToPath(new URL('mistwise.html', import.meta.url));
  if (existsSync(path)) return path;
  throw new UserError({
    what: 'the planning page is not built',
    where: path,
    got: 'no such file',
    expected: 'npm run build, which makes it',
  });
}

/** Copies a file, the whole of it or nothing. A folder as the goal takes it under its own name. Gives where it is. */
export function copyTo(file: string, goal: string): string {
  const wanted = resolve(goal);
  const path = existsSync(wanted) && statSync(wanted).isDirectory() ? join(wanted, basename(file)) : wanted;
  const part = join(dirname(path), `.${basename(path)}-${process.pid}.part`);
  try {
    mkdirSync(dirname(path), { recursive: true });
    copyFileSync(file, part);
    renameSync(part, path);
  } catch (error) {
    if (existsSync(part)) rmSync(part);
    throw new UserError({
      what: `the page cannot be written: ${(error as NodeJS.ErrnoException).code ?? String(error)}`,
      where: goal,
      expected: 'a file in a folder with room and permission to write',
    });
  }
  return path;
}
