import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeInChild } from '../../src/cli/node/decode-child.ts';
import { UserError } from '../../src/door/user-error.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { DECODE_LIMITS } from '../../src/terrain/decoded.ts';
import { fixture } from '../terrain/heights.ts';

const folder = mkdtempSync(join(tmpdir(), 'decode-'));
let worker: URL;

/** A child that does not what it should. */
function script(name: string, text: string): URL {
  const path = join(folder, `${name}.mjs`);
  writeFileSync(path, text);
  return pathToFileURL(path);
}

beforeAll(async () => {
  await build({
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: folder,
      emptyOutDir: false,
      rollupOptions: {
        input: fileURLToPath(new URL('../../src/cli/node/decode-worker.ts', import.meta.url)),
        output: { entryFileNames: '[name].mjs', chunkFileNames: '[name].mjs' },
      },
    },
  });
  worker = pathToFileURL(join(folder, 'decode-worker.mjs'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('decoding in a child process', () => {
  const limits = { seconds: 30, megabytes: 2000 };

  it('gives what decoding here gives, note for note and bit for bit', async () => {
    const bytes = fixture('ny21-cut.tif');
    const here = await decodeHeights(bytes, 'ny21-cut.tif');
    const there = await decodeInChild(bytes, 'ny21-cut.tif', DECODE_LIMITS, limits, worker);
    expect(there).toEqual(here);
  });

  it('brings what is wrong with the file back as such', async () => {
    const bytes = fixture('ny21-cut.tif').slice(0, 900);
    const here = await decodeHeights(bytes, 'a.tif').catch((error: unknown) => error);
    expect(here).toBeInstanceOf(UserError);
    const there = await decodeInChild(bytes, 'a.tif', DECODE_LIMITS, limits, worker).catch(
      (error: unknown) => error,
    );
    expect(there).toEqual(here);
  });

  it.each([
    ['crashes', 'process.abort()', limits, 'ended without an answer'],
    ['leaves', 'process.exit(0)', limits, 'ended without an answer'],
    ['says nonsense', 'process.stdout.end("x".repeat(3))', limits, 'ended without an answer'],
    [
      'claims a raster beyond all limits',
      'const b = Buffer.alloc(20); b.writeDoubleLE(2, 0); b.writeDoubleLE(1e15, 8); process.stdout.end(b)',
      limits,
      'ended without an answer',
    ],
    [
      'says more than it announced',
      'const b = Buffer.alloc(40, 32); b.writeDoubleLE(2, 0); b.writeDoubleLE(4, 8); process.stdout.end(b)',
      limits,
      'ended without an answer',
    ],
    ['hangs', 'for (;;);', { seconds: 0.3, megabytes: 2000 }, 'more than 0.3 s'],
    [
      'swells',
      'const kept = []; setInterval(() => kept.push(Buffer.alloc(3e7, 1)), 5);',
      { seconds: 30, megabytes: 300 },
      'more than 300 MB',
    ],
  ])('a child that %s is one message about the file', async (name, text, own, said) => {
    const error = await decodeInChild(
      new Uint8Array(5e6),
      'a.tif',
      DECODE_LIMITS,
      own,
      script(name, text),
    ).catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).message).toContain(said);
  });
});
