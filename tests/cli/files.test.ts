import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readBytes, readText } from '../../src/cli/node/files.ts';
import { UserError } from '../../src/door/user-error.ts';

let home = '';
beforeAll(() => {
  home = mkdtempSync(join(tmpdir(), 'mistwise-'));
  writeFileSync(join(home, 'gauge.task.yaml'), 'a: ä');
  writeFileSync(join(home, 'latin.yaml'), new Uint8Array([0x61, 0xe4, 0x62]));
});
afterAll(() => {
  rmSync(home, { recursive: true, force: true });
});

async function said(read: Promise<unknown>): Promise<string> {
  const error = await read.then(
    () => null,
    (e: unknown) => e,
  );
  expect(error).toBeInstanceOf(UserError);
  return (error as UserError).message.replaceAll(home, '~');
}

test('text is read as UTF-8', async () => {
  expect(await readText(join(home, 'gauge.task.yaml'), 'task')).toBe('a: ä');
});

test.each([
  [
    'guage.task.yaml',
    '~/guage.task.yaml: there is no such file; did you mean gauge.task.yaml? (expected a task)',
  ],
  [
    'nowhere/x.yaml',
    '~/nowhere/x.yaml: there is no such file (expected a task; its folder does not exist either)',
  ],
  ['.', '~: no task here (got a folder, expected a file)'],
  ['latin.yaml', '~/latin.yaml: this task is not text (got bytes that are not UTF-8, expected UTF-8)'],
  ['gauge.task.yaml/x', '~/gauge.task.yaml/x: this task cannot be read (got ENOTDIR)'],
])('%s', async (name, message) => {
  expect(await said(readText(join(home, name), 'task'))).toBe(message);
});

test('size is looked at before reading', async () => {
  expect(await said(readBytes(join(home, 'gauge.task.yaml'), 'task', 2))).toMatch(/too large/);
});
