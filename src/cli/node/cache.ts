import { createHash, randomUUID } from 'node:crypto';
import { mkdir, open, readdir, rename, rm, stat, utimes } from 'node:fs/promises';
import { homedir } from 'node:os';
import { join } from 'node:path';

/*
 * What took long to prepare (heights brought to a grid, relief), kept on disk under the hash of all that it follows from.
 * A file appears whole or not at all, so that several runs may read, write and tidy up at once; anything that goes wrong
 * with it only means that the work is done again.
 */

/** Raised when the form or the meaning of what is kept changes. */
const FORM = 1;
const MAGIC = 0x4d57434b;
/** Above this the files used longest ago are deleted, bytes. */
const MOST_BYTES = 2_147_483_648;
const SUFFIX = '.arrays';
/** What a run that was killed left behind is deleted after this, milliseconds. */
const STALE = 3_600_000;

/** Rasters by name, and the few plain facts that belong to them. */
export interface Kept<F> {
  readonly arrays: Readonly<Record<string, Float32Array>>;
  /** Plain JSON. */
  readonly facts: F;
}

/** The folder: `MISTWISE_CACHE`, or `mistwise` in the user's cache folder. An empty `MISTWISE_CACHE` keeps nothing. */
export function cacheFolder(
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string | null {
  const said = environment.MISTWISE_CACHE;
  if (said !== undefined) return said === '' ? null : said;
  return join(environment.XDG_CACHE_HOME || join(homedir(), '.cache'), 'mistwise');
}

/** The name of something that follows from these contents alone. */
export function keyOf(...contents: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256').update(`form ${FORM}\n`);
  for (const content of contents) {
    // lengths keep "ab" + "c" apart from "a" + "bc"
    hash.update(`${content.length}\n`).update(content);
  }
  return hash.digest('hex').slice(0, 40);
}

/** What is kept under the key, else what `make` gives, which is then kept. */
export async function cached<F>(
  key: string,
  make: () => Kept<F> | Promise<Kept<F>>,
  folder: string | null = cacheFolder(),
  mostBytes = MOST_BYTES,
): Promise<Kept<F>> {
  if (folder === null) return make();
  const path = join(folder, key + SUFFIX);
  const kept = await read<F>(path);
  if (kept !== null) return kept;
  const made = await make();
  await keep(folder, path, made, mostBytes);
  return made;
}

/** Head of a file: magic and bytes of the table that follows; then the table as JSON, then the arrays one after the other. */
interface Table<F> {
  readonly arrays: readonly { readonly name: string; readonly length: number }[];
  readonly facts: F;
}

const HEAD_BYTES = 8;
const MOST_TABLE = 1024 * 1024;

async function read<F>(path: string): Promise<Kept<F> | null> {
  const file = await open(path).catch(() => null);
  if (file === null) return null;
  try {
    const head = new Uint32Array(2);
    if ((await file.read(head, 0, HEAD_BYTES, 0)).bytesRead !== HEAD_BYTES) return null;
    const [magic, tableBytes] = head as unknown as [number, number];
    if (magic !== MAGIC || tableBytes > MOST_TABLE) return null;
    const text = new Uint8Array(tableBytes);
    await file.read(text, 0, tableBytes, HEAD_BYTES);
    const table = JSON.parse(new TextDecoder().decode(text)) as Table<F>;
    const begin = HEAD_BYTES + tableBytes;
    const bytes = table.arrays.reduce((sum, { length }) => sum + 4 * length, begin);
    if ((await file.stat()).size !== bytes) return null;
    const arrays: Record<string, Float32Array> = {};
    let at = begin;
    for (const { name, length } of table.arrays) {
      const array = new Float32Array(length);
      const { bytesRead } = await file.read(array, 0, array.byteLength, at);
      if (bytesRead !== array.byteLength) return null;
      at += array.byteLength;
      arrays[name] = array;
    }
    // read just now: the last to be deleted
    const now = new Date();
    await utimes(path, now, now).catch(() => {});
    return { arrays, facts: table.facts };
  } catch {
    return null;
  } finally {
    await file.close();
  }
}

async function keep<F>(folder: string, path: string, made: Kept<F>, mostBytes: number): Promise<void> {
  const part = `${path}.${process.pid}-${randomUUID()}.part`;
  try {
    await mkdir(folder, { recursive: true });
    const arrays = Object.entries(made.arrays);
    const table: Table<F> = {
      arrays: arrays.map(([name, array]) => ({ name, length: array.length })),
      facts: made.facts,
    };
    const text = new TextEncoder().encode(JSON.stringify(table));
    const file = await open(part, 'wx');
    try {
      await file.writeFile(bytesOf(Uint32Array.from([MAGIC, text.length])));
      await file.writeFile(text);
      for (const [, array] of arrays) await file.writeFile(bytesOf(array));
    } finally {
      await file.close();
    }
    await rename(part, path);
    await tidy(folder, path, mostBytes);
  } catch {
    // a full or read-only disk keeps nothing; the result is the same
    await rm(part, { force: true }).catch(() => {});
  }
}

function bytesOf({ buffer, byteOffset, byteLength }: Uint32Array | Float32Array): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength);
}

/** Deletes what was used longest ago until the rest fits, and what killed runs left; never the file just written. */
async function tidy(folder: string, newest: string, mostBytes: number): Promise<void> {
  const found: { path: string; bytes: number; used: number }[] = [];
  for (const name of await readdir(folder)) {
    const path = join(folder, name);
    const facts = await stat(path).catch(() => null);
    if (facts === null) continue;
    if (name.endsWith('.part') && Date.now() - facts.mtimeMs > STALE) await rm(path, { force: true });
    if (name.endsWith(SUFFIX)) found.push({ path, bytes: facts.size, used: facts.mtimeMs });
  }
  let bytes = found.reduce((sum, f) => sum + f.bytes, 0);
  found.sort((a, b) => a.used - b.used);
  for (const file of found) {
    if (bytes <= mostBytes) break;
    if (file.path === newest) continue;
    await rm(file.path, { force: true });
    bytes -= file.bytes;
  }
}
