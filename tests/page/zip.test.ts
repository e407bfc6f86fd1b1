import { unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { unzipped, zipped } from '../../viz/page/zip.ts';

const files = [
  { name: 'terrain.json', bytes: new TextEncoder().encode('{"name":"Überhang"}'.repeat(50)) },
  { name: 'höhen/elevation.tif', bytes: Uint8Array.from({ length: 500 }, (_, i) => (i * 7919) % 251) },
  { name: 'empty.txt', bytes: new Uint8Array(0) },
];

describe('archives, against fflate as the reference', () => {
  test('what is written here is read there', () => {
    const read = unzipSync(zipped(files));
    expect(Object.keys(read)).toEqual(files.map((f) => f.name));
    for (const { name, bytes } of files) expect([...read[name]!]).toEqual([...bytes]);
  });

  test('what is written there is read here, stored and deflated', () => {
    for (const level of [0, 6] as const) {
      const archive = zipSync(Object.fromEntries(files.map((f) => [f.name, f.bytes])), { level });
      const read = unzipped(archive, 'a.zip');
      expect(read.map((f) => f.name)).toEqual(files.map((f) => f.name));
      read.forEach((f, i) => {
        expect([...f.bytes]).toEqual([...files[i]!.bytes]);
      });
    }
  });

  test('a damaged, a cut and an empty one are refused with a message', () => {
    const whole = zipped(files);
    const damaged = whole.slice();
    damaged[60] = damaged[60]! ^ 0xff;
    expect(() => unzipped(damaged, 'a.zip')).toThrow(/archive|damaged/);
    expect(() => unzipped(whole.slice(0, whole.length - 30), 'a.zip')).toThrow('cannot be read');
    expect(() => unzipped(new Uint8Array(0), 'a.zip')).toThrow('cannot be read');
  });

  test('one that claims to hold more than a page does is not unpacked', () => {
    const bomb = zipped(files);
    const view = new DataView(bomb.buffer);
    const at = view.getUint32(bomb.length - 6, true);
    view.setUint32(at + 24, 4_000_000_000, true);
    expect(() => unzipped(bomb, 'a.zip')).toThrow('MB inside');
  });
});
