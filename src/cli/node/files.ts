import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import { suggestion } from '../../door/did-you-mean.ts';
import { UserError } from '../../door/user-error.ts';

const MEGABYTE = 1024 * 1024;
/** Documents and features; rasters have limits of their own. */
const MOST_TEXT = 64 * MEGABYTE;
const MOST_BYTES = 2048 * MEGABYTE;

/** The text of a file, UTF-8. Missing, unreadable, too large or not text: UserError. */
export async function readText(path: string, what: string): Promise<string> {
  const bytes = await readBytes(path, what, MOST_TEXT);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new UserError({
      what: `this ${what} is not text`,
      where: path,
      got: 'bytes that are not UTF-8',
      expected: 'UTF-8',
    });
  }
}

export async function readBytes(
  path: string,
  what: string,
  most = MOST_BYTES,
): Promise<Uint8Array<ArrayBuffer>> {
  await checkFile(path, what, most);
  try {
    const buffer = await readFile(path);
    return new Uint8Array(buffer.buffer, buffer.byteOffset, buffer.byteLength);
  } catch (error) {
    throw unreadable(path, what, error);
  }
}

export async function isFolder(path: string): Promise<boolean> {
  return stat(path).then(
    (facts) => facts.isDirectory(),
    () => false,
  );
}

/** The path of a file that another file names relative to itself. */
export function beside(path: string, named: string): string {
  return isAbsolute(named) ? named : join(dirname(path), named);
}

/** `gauge` of `tasks/gauge.task.yaml`. */
export function stem(path: string): string {
  return basename(path).replace(/(\.task)?\.(ya?ml|json)$/i, '');
}

/** Size and kind are looked at before anything is read. */
async function checkFile(path: string, what: string, most: number): Promise<void> {
  const found = await stat(path).catch((error: unknown) => error);
  if (found instanceof Error || !(typeof found === 'object' && found !== null && 'isFile' in found)) {
    throw await missing(path, what, found);
  }
  const facts = found as Awaited<ReturnType<typeof stat>>;
  if (!facts.isFile()) {
    throw new UserError({
      what: `no ${what} here`,
      where: path,
      got: facts.isDirectory() ? 'a folder' : 'not a plain file',
      expected: 'a file',
    });
  }
  if (facts.size > most) {
    throw new UserError({
      what: `this ${what} is too large`,
      where: path,
      got: `${Math.ceil(Number(facts.size) / MEGABYTE)} MB`,
      expected: `at most ${most / MEGABYTE} MB`,
    });
  }
}

async function missing(path: string, what: string, error: unknown): Promise<UserError> {
  if ((error as NodeJS.ErrnoException).code !== 'ENOENT') return unreadable(path, what, error);
  const beside = await readdir(dirname(resolve(path))).catch(() => null);
  const guess = beside === null ? '' : suggestion(basename(path), beside);
  return new UserError({
    what: `there is no such file${guess}`,
    where: path,
    expected: beside === null ? `a ${what}; its folder does not exist either` : `a ${what}`,
  });
}

function unreadable(path: string, what: string, error: unknown): UserError {
  const code = (error as NodeJS.ErrnoException).code ?? 'unknown reason';
  const said: Record<string, string> = {
    EACCES: 'no permission',
    EPERM: 'no permission',
    EISDIR: 'a folder',
  };
  return new UserError({ what: `this ${what} cannot be read`, where: path, got: said[code] ?? code });
}
