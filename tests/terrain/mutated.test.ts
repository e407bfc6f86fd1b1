import { expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { readGeotiff } from '../../src/terrain/read-geotiff.ts';
import { fixture } from './heights.ts';
import { damageAll } from './hostile.ts';

it('300 damaged files are read or refused, none crashes or hangs', async () => {
  const { read, refused } = await damageAll(300, 20261125);
  expect(read).toBeGreaterThan(30);
  expect(refused).toBeGreaterThan(50);
}, 120_000);

/** A classic TIFF of one directory; values that need an offset point at its end. */
function tiff(
  entries: readonly (readonly [tag: number, type: number, count: number, value: number])[],
  next = 0,
): Uint8Array {
  const bytes = new Uint8Array(8 + 2 + 12 * entries.length + 4 + 64);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, 0x4949, true);
  view.setUint16(2, 42, true);
  view.setUint32(4, 8, true);
  view.setUint16(8, entries.length, true);
  entries.forEach(([tag, type, count, value], i) => {
    const at = 10 + 12 * i;
    view.setUint16(at, tag, true);
    view.setUint16(at + 2, type, true);
    view.setUint32(at + 4, count, true);
    view.setUint32(at + 8, value, true);
  });
  view.setUint32(10 + 12 * entries.length, next, true);
  return bytes;
}

const size = (columns: number, rows: number) =>
  [
    [256, 4, 1, columns],
    [257, 4, 1, rows],
    [258, 3, 1, 32],
    [262, 3, 1, 1],
    [339, 3, 1, 3],
  ] as const;

it.each([
  [
    'a tag of four thousand million doubles',
    tiff([...size(4, 4), [33550, 12, 0xffffffff, 60]]),
    'points beyond its end',
  ],
  ['an image of four thousand million rows', tiff(size(0xffffffff, 0xffffffff)), 'too large'],
  ['an image without rows', tiff(size(4, 0)), 'no cells'],
  ['a directory that names itself as the next', tiff(size(4, 4), 8), 'circle'],
  ['a type of value that there is none of', tiff([[256, 99, 1, 4]]), 'unknown type'],
  ['a block table of text', tiff([...size(4, 4), [273, 2, 4, 1]]), 'wrong type'],
  ['a directory past the end', Uint8Array.of(0x49, 0x49, 42, 0, 0xf0, 0xff, 0, 0), 'beyond its end'],
  ['half a header', Uint8Array.of(0x49, 0x49, 42), 'inside its header'],
])('%s', async (_name, bytes, said) => {
  const error = await readGeotiff(bytes).catch((caught: unknown) => caught);
  expect(error).toBeInstanceOf(UserError);
  expect((error as UserError).message).toContain(said);
});

it('a block that unpacks to more than its size is refused, not unpacked', async () => {
  // the file says 7 rows of 40 a strip; with 1 column it says 28 bytes, and each strip still holds 1120
  const bytes = new Uint8Array(fixture('encodings/strip-rows.tif'));
  const view = new DataView(bytes.buffer);
  const directory = view.getUint32(4, true);
  for (let i = 0; i < view.getUint16(directory, true); i++) {
    const at = directory + 2 + 12 * i;
    if (view.getUint16(at, true) === 256) view.setUint16(at + 8, 1, true);
  }
  await expect(decodeHeights(bytes, 'a.tif')).rejects.toThrow(UserError);
});
