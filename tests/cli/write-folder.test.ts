import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { checkWritable, writeFolder } from '../../src/cli/node/write-folder.ts';
import { UserError } from '../../src/door/user-error.ts';

let home = '';
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'mistwise-'));
});
afterEach(() => {
  rmSync(home, { recursive: true, force: true });
});

const files = new Map<string, string | Uint8Array>([
  ['a.txt', 'new'],
  ['b.bin', new Uint8Array([1, 2])],
]);

test('a new folder, in folders that have to be made', () => {
  writeFolder(join(home, 'x', 'y'), files);
  expect(readdirSync(join(home, 'x', 'y')).sort()).toEqual(['a.txt', 'b.bin']);
  expect(readdirSync(join(home, 'x'))).toEqual(['y']);
});

test('files of an earlier run are replaced, others stay, nothing is left beside', () => {
  const folder = join(home, 'out');
  mkdirSync(folder);
  writeFileSync(join(folder, 'a.txt'), 'old');
  writeFileSync(join(folder, 'notes.txt'), 'mine');
  writeFolder(folder, files);
  expect(readFileSync(join(folder, 'a.txt'), 'utf8')).toBe('new');
  expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('mine');
  expect(readdirSync(folder).sort()).toEqual(['a.txt', 'b.bin', 'notes.txt']);
  expect(readdirSync(home)).toEqual(['out']);
});

test('a write that fails leaves no folder', () => {
  const impossible = new Map([
    ['a.txt', 'x'],
    ['no/such/folder.txt', 'x'],
  ]);
  expect(() => writeFolder(join(home, 'x', 'y'), impossible)).toThrow(UserError);
  expect(existsSync(join(home, 'x'))).toBe(false);
});

test('an output that cannot be is refused beforehand', () => {
  writeFileSync(join(home, 'file'), '');
  expect(() => checkWritable(join(home, 'file'))).toThrow(/would go into a file/);
  expect(() => checkWritable(join(home, 'file', 'deeper'))).toThrow(/no folder can be written here/);
  expect(() => checkWritable(join(home, 'new', 'deeper'))).not.toThrow();
  expect(existsSync(join(home, 'new'))).toBe(false);
});
