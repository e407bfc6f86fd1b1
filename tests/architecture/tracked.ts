import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

export const ROOT = new URL('../../', import.meta.url).pathname;

/** Files under version control, by path from the root; those not yet added count too, ignored ones do not. */
export function trackedFiles(): string[] {
  const listed = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return [...new Set(listed.split('\0'))].filter((path) => path !== '' && existsSync(ROOT + path)).sort();
}

export function sourcesUnder(folders: readonly string[]): Map<string, string> {
  const paths = trackedFiles().filter(
    (path) => /\.(ts|js|mjs)$/.test(path) && folders.some((folder) => path.startsWith(`${folder}/`)),
  );
  return new Map(paths.map((path) => [path, readFileSync(ROOT + path, 'utf8')]));
}
