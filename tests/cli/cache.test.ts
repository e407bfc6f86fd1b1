import { mkdtemp, readdir, rm, stat, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { cached, cacheFolder, keyOf } from '../../src/cli/node/cache.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'mistwise-cache-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
});

const heights = (n: number) => ({
  arrays: { z: Float32Array.from({ length: n }, (_, i) => i / 3), w: new Float32Array([7]) },
  facts: { name: 'Fjäll', n },
});

test('the second time nothing is made, and every bit is the same, NaN too', async () => {
  let made = 0;
  const make = () => {
    made++;
    const a = heights(1000);
    a.arrays.z[3] = Number.NaN;
    return a;
  };
  const first = await cached('k', make, folder);
  const second = await cached('k', make, folder);
  expect(made).toBe(1);
  expect(new Uint8Array(second.arrays.z!.buffer)).toEqual(new Uint8Array(first.arrays.z!.buffer));
  expect(second.arrays.w).toEqual(first.arrays.w);
  expect(second.facts).toEqual({ name: 'Fjäll', n: 1000 });
});

test('the key tells contents, their order and their borders apart', () => {
  const keys = [
    keyOf('ab', 'c'),
    keyOf('a', 'bc'),
    keyOf('c', 'ab'),
    keyOf('abc'),
    keyOf(new Uint8Array([97])),
  ];
  expect(new Set(keys).size).toBe(keys.length);
  expect(keyOf('a')).toBe(keyOf(new Uint8Array([97])));
});

test('a cut, foreign or unreadable file is made again', async () => {
  const path = join(folder, 'k.arrays');
  for (const spoil of [
    () => truncate(path, 50),
    () => writeFile(path, 'not ours'),
    () => writeFile(path, new Uint8Array(0)),
  ]) {
    await cached('k', () => heights(100), folder);
    await spoil();
    let made = 0;
    const make = () => {
      made++;
      return heights(100);
    };
    const again = await cached('k', make, folder);
    expect(made).toBe(1);
    expect(again.arrays.z).toEqual(heights(100).arrays.z);
  }
});

test('many runs at once all get the whole thing and leave one file', async () => {
  const runs = Array.from({ length: 20 }, () => cached('k', () => heights(5000), folder));
  for (const got of await Promise.all(runs)) {
    expect(Buffer.from(got.arrays.z!.buffer).equals(Buffer.from(heights(5000).arrays.z.buffer))).toBe(true);
  }
  expect(await readdir(folder)).toEqual(['k.arrays']);
});

test('bounded: what was used longest ago goes first', async () => {
  const most = 3 * 4200;
  const pause = () => new Promise((done) => setTimeout(done, 15));
  for (const key of ['a', 'b', 'c']) {
    await cached(key, () => heights(1000), folder, most);
    await pause();
  }
  await cached('a', () => heights(1000), folder, most);
  await pause();
  await cached('d', () => heights(1000), folder, most);
  expect((await readdir(folder)).sort()).toEqual(['a.arrays', 'c.arrays', 'd.arrays']);
  let bytes = 0;
  for (const name of await readdir(folder)) bytes += (await stat(join(folder, name))).size;
  expect(bytes).toBeLessThanOrEqual(most);
});

test('where nothing can be kept, the work is done all the same', async () => {
  const file = join(folder, 'in-the-way');
  await writeFile(file, '');
  expect((await cached('k', () => heights(10), join(file, 'sub'))).arrays.z!.length).toBe(10);
  expect((await cached('k', () => heights(10), null)).arrays.z!.length).toBe(10);
  expect(cacheFolder({ MISTWISE_CACHE: '' })).toBeNull();
  expect(cacheFolder({ MISTWISE_CACHE: 'here' })).toBe('here');
});
