import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { share } from '../../src/cli/node/share.ts';
import { openPool, type Pool } from '../../src/cli/node/worker-pool.ts';
import { UserError } from '../../src/door/user-error.ts';

// a worker takes no TypeScript: the real one is bundled for it
const folder = mkdtempSync(join(tmpdir(), 'mistwise-pool-'));
const SCRIPT = pathToFileURL(join(folder, 'echo-worker.js'));
const heights = Float32Array.from({ length: 5000 }, (_, i) => i * 2);
type Echoes = Pool<{ heights: Float32Array }, number | string, unknown>;
let pool: Echoes | null = null;

beforeAll(async () => {
  const ssr = fileURLToPath(new URL('./echo-worker.ts', import.meta.url));
  await build({
    configFile: false,
    logLevel: 'error',
    build: { ssr, outDir: folder },
    ssr: { noExternal: true },
  });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

afterEach(async () => {
  await pool?.close();
  pool = null;
});

function echoes(count: number): (job: number | string, soon?: boolean) => Promise<unknown> {
  pool = openPool(SCRIPT, count) as Echoes;
  return pool.under({ heights });
}

test('every job gets its own answer, whichever worker gives it; rasters are shared, not copied', async () => {
  const run = echoes(3);
  const answers = await Promise.all(Array.from({ length: 50 }, (_, i) => run(i)));
  expect(answers).toEqual(Array.from({ length: 50 }, (_, i) => ({ job: i, sum: 2 * i, shared: true })));
});

test('jobs are done under the setup that they were given with, whatever else the workers do', async () => {
  const run = echoes(2);
  const other = pool!.under({ heights: heights.map((h) => -h) });
  const answers = await Promise.all(Array.from({ length: 20 }, (_, i) => (i % 2 === 0 ? run(i) : other(i))));
  expect(answers).toEqual(
    Array.from({ length: 20 }, (_, i) => ({ job: i, sum: i % 2 === 0 ? 2 * i : -2 * i, shared: true })),
  );
});

test('a fault in a worker reaches the one who asked, and the pool goes on', async () => {
  const run = echoes(1);
  await expect(run('fault')).rejects.toThrow('broken');
  // what is wrong with the input keeps its parts: they are put into the reader's language on this side
  const wrong = await run('wrong').catch((error: unknown) => error);
  expect(wrong).toBeInstanceOf(UserError);
  expect((wrong as UserError).parts).toEqual({
    what: 'no such place',
    where: 'a.yaml:1:2',
    got: '"x"',
    expected: 'a place',
  });
  expect(await run(4)).toMatchObject({ sum: 8 });
});

test('a worker that dies is a fault, not a wait for ever', async () => {
  const run = echoes(2);
  await expect(Promise.all([run('die'), run(1)])).rejects.toThrow('a worker ended with code 3');
  await expect(run(1)).rejects.toThrow('a worker ended');
});

test('a worker goes on to its next job while this thread is busy', async () => {
  const run = echoes(1);
  await run(0);
  const ended = [run('rest'), run('time')];
  // as a long search does: nothing is heard from the workers meanwhile
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 400);
  const busyUntil = Date.now();
  expect((await Promise.all(ended))[1]).toBeLessThan(busyUntil);
});

test('what is wanted soon is done before what waits already', async () => {
  const run = echoes(1);
  await run(0);
  const jobs = [run('rest'), run(1), run(2), run(3, true)];
  await Promise.all(jobs);
  const order = (await run('order')) as unknown[];
  expect(order.indexOf(3)).toBeLessThan(order.indexOf(1));
});

test('closing rejects what is still waiting', async () => {
  const run = echoes(1);
  const waiting = run(1);
  await Promise.all([pool!.close(), expect(waiting).rejects.toThrow('closed')]);
});

test('sharing keeps values, maps, and one array in two places as one', () => {
  const small = new Uint8Array([1, 2]);
  const given = { a: heights, b: [heights, small], names: new Map([['x', { a: heights }]]), nothing: null };
  const shared = share(given);
  expect(shared).toEqual(given);
  expect(shared.a.buffer).toBeInstanceOf(SharedArrayBuffer);
  expect(shared.b[0]).toBe(shared.a);
  expect(shared.names.get('x')?.a).toBe(shared.a);
  expect(shared.b[1]).toBe(small);
  expect(given.a.buffer).toBeInstanceOf(ArrayBuffer);
});
