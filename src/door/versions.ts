import { UserError } from './user-error.ts';

/**
 * Every file carries a `version`. Refuses by name one that this program does not know; older known ones are migrated by their reader.
 * @param what the kind of file, as in "task"
 */
export function checkVersion(what: string, version: number, known: readonly number[], where: string): void {
  if (known.includes(version)) return;
  const newest = Math.max(...known);
  throw new UserError({
    what: version > newest ? `this ${what} was written for a newer program` : `no ${what} has this version`,
    where,
    got: `version ${version}`,
    expected: known.length === 1 ? `version ${newest}` : `versions ${known.join(', ')}`,
  });
}
