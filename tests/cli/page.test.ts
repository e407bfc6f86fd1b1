import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildProgram, run } from './program.ts';

let program = '';
let home = '';
beforeAll(async () => {
  program = await buildProgram();
  home = mkdtempSync(join(tmpdir(), 'mistwise-page-command-'));
});
afterAll(() => {
  rmSync(home, { recursive: true, force: true });
  rmSync(dirname(program), { recursive: true, force: true });
});

const mistwise = (...words: string[]) => run(program, words, home);
const page = () => join(dirname(program), 'mistwise.html');

test('where it is not built, one message says how to build it', async () => {
  const { code, out, err } = await mistwise('page', '--out', 'copy.html');
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain('the planning page is not built');
  expect(err).toContain('npm run build');
  expect(err.trim().split('\n')).toHaveLength(1);
  expect(readdirSync(home)).toEqual([]);
});

test('it is told, copied to a file, and into a folder under its own name', async () => {
  writeFileSync(page(), '<!doctype html>the page');
  expect(await mistwise('page')).toMatchObject({ code: 0, out: expect.stringContaining(page()) });
  expect((await mistwise('page', '--language', 'de')).out).toContain('Die Planungsseite ist ');

  const { code, out } = await mistwise('page', '--out', 'new/plan.html');
  expect(code).toBe(0);
  expect(out).toContain(join('new', 'plan.html'));
  expect(readFileSync(join(home, 'new', 'plan.html'), 'utf8')).toBe('<!doctype html>the page');
  mkdirSync(join(home, 'folder'));
  await mistwise('page', '--out', 'folder');
  expect(readdirSync(join(home, 'folder'))).toEqual(['mistwise.html']);
});

test('a goal that cannot be written is one message', async () => {
  writeFileSync(page(), 'x');
  writeFileSync(join(home, 'file'), '');
  const { code, err } = await mistwise('page', '--out', 'file/plan.html');
  expect(code).toBe(2);
  expect(err).toMatch(/^file\/plan\.html: the page cannot be written: \w+/);
});
