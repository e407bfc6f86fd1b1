import { afterEach, expect, test } from 'vitest';
import { share } from '../../src/cli/node/share.ts';
import { openPool, type Pool } from '../../src/cli/node/worker-pool.ts';

const SCRIPT = new URL('./echo-worker.js', import.meta.url);
const heights = Float32Array.from({ length: 5000 }, (_, i) => i * 2);
let pool: Pool<number | string, unknown> | null = null;

afterEach(async () => {
  await pool?.close();
  pool = null;
});

test('every job gets its own answer, whichever worker gives it; rasters are shared, not copied', async () => {
  pool = openPool(SCRIPT, 3, { heights });
  const answers = await Promise.all(Array.from({ length: 50 }, (_, i) => pool?.run(i)));
  expect(answers).toEqual(Array.from({ length: 50 }, (_, i) => ({ job: i, sum: 2 * i, shared: true })));
});

test('a fault in a worker reaches the one who asked, and the pool goes on', async () => {
  pool = openPool(SCRIPT, 1, { heights });
  await expect(pool.run('fault')).rejects.toThrow('broken');
  expect(await pool.run(4)).toMatchObject({ sum: 8 });
});

test('a worker that dies is a fault, not a wait for ever', async () => {
  pool = openPool(SCRIPT, 2, { heights });
  await expect(Promise.all([pool.run('die'), pool.run(1)])).rejects.toThrow('a worker ended with code 3');
  await expect(pool.run(1)).rejects.toThrow('a worker ended');
});

test('closing rejects what is still waiting', async () => {
  pool = openPool(SCRIPT, 1, { heights });
  const waiting = pool.run(1);
  await Promise.all([pool.close(), expect(waiting).rejects.toThrow('closed')]);
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
