import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { violationsOfPortability } from './architecture/portable.ts';
import { violationsOfRooms } from './architecture/rooms.ts';
import { ROOT, sourcesUnder, trackedFiles } from './architecture/tracked.ts';

const engine = sourcesUnder(['src']);
const everything = sourcesUnder(['src', 'viz']);

test('every import keeps to the rooms', () => {
  expect(engine.size).toBeGreaterThan(100);
  expect(violationsOfRooms(everything)).toEqual([]);
});

test('nothing in the engine depends on the machine', () => {
  expect(violationsOfPortability(engine)).toEqual([]);
});

describe('the checker sees a planted violation', () => {
  const planted = (path: string, text: string) =>
    violationsOfRooms(
      new Map([
        ['src/math/plane.ts', 'export const a = 1;'],
        [path, text],
      ]),
    );

  test.each([
    ['an import from a lower room', 'src/grid/x.ts', "import { a } from '../walk/walker.ts';"],
    ['a type from a lower room', 'src/grid/x.ts', "import type { A } from '../walk/walker.ts';"],
    ['a side effect of a lower room', 'src/grid/x.ts', "import '../walk/walker.ts';"],
    ['a re-export', 'src/grid/x.ts', "export * from '../walk/walker.ts';"],
    ['a dynamic import', 'src/grid/x.ts', "export const a = () => import('../walk/walker.ts');"],
    ['an import type', 'src/grid/x.ts', "export type A = import('../walk/walker.ts').A;"],
    ['a require', 'src/grid/x.ts', "const a = require('../walk/walker.ts');"],
    ['a template without holes', 'src/grid/x.ts', 'export const a = () => import(`../walk/walker.ts`);'],
    ['a computed import', 'src/grid/x.ts', 'export const a = (b: string) => import(b);'],
    ['a file in no room', 'src/utils/x.ts', "import { a } from '../math/plane.ts';"],
    ['node outside its room', 'src/cli/x.ts', "import { readFile } from 'node:fs';"],
    ['node without its prefix', 'src/terrain/x.ts', "import { readFile } from 'fs/promises';"],
    ['pictures in the engine', 'src/report/x.ts', "import { a } from '../../viz/charts/hundred.ts';"],
    ['d3 in the engine', 'src/report/x.ts', "import { scaleLinear } from 'd3-scale';"],
    [
      'values of the report in the study',
      'src/study/x.ts',
      "import { OUTCOMES } from '../report/report.ts';",
    ],
    ['a chart in the map', 'viz/map/x.ts', "import { a } from '../charts/hundred.ts';"],
    ['the map in a chart', 'viz/charts/x.ts', "import { a } from '../map/relief.ts';"],
    ['the page in the report', 'viz/report/x.ts', "import { a } from '../page/a.ts';"],
    ['the report in the page', 'viz/page/x.ts', "import { a } from '../report/a.ts';"],
    ['an absolute path', 'src/grid/x.ts', "import { a } from '/srv/a.ts';"],
  ])('%s', (_, path, text) => {
    expect(planted(path, text)).toHaveLength(1);
  });

  test('a package in two rooms', () => {
    const sources = new Map([
      ['src/door/a.ts', "import * as v from 'valibot';"],
      ['src/report/b.ts', "import type { B } from 'valibot';"],
    ]);
    expect(violationsOfRooms(sources)).toEqual([
      expect.stringContaining('valibot lives in src/door and src/report'),
    ]);
  });

  test.each([
    ['src/study/x.ts', "import type { Report } from '../report/report.ts';"],
    ['src/study/x.ts', "import { type Report, type Candidate } from '../report/report.ts';"],
    ['src/cli/node/x.ts', "import { readFile } from 'node:fs/promises';"],
    ['src/walk/techniques/x.ts', "import { a } from '../../math/plane.ts'; import { b } from '../body.ts';"],
    [
      'viz/report/x.ts',
      "import { a } from '../charts/a.ts'; import type { R } from '../../src/report/report.ts';",
    ],
    [
      'src/grid/x.ts',
      "// import { a } from '../walk/walker.ts';\nexport const text = \"import '../walk/walker.ts'\";",
    ],
  ])('and lets %s with %s pass', (path, text) => {
    expect(planted(path, text)).toEqual([]);
  });

  test.each([
    'export const a = Math.sin(1);',
    'export const a = Math.hypot(3, 4);',
    "export const a = Math['exp'](1);",
    'const { cos } = Math;',
    'const M = Math;',
    'export const a = 2 ** 3;',
    'export let a = 2; a **= 3;',
    'export const a = Math.random();',
    'export const a = Date.now();',
    'export const a = new Date();',
    "export const a = ['b'].sort((x, y) => x.localeCompare(y));",
    'export const a = (5).toLocaleString();',
    "export const a = new Intl.NumberFormat('en');",
  ])('%s', (text) => {
    expect(violationsOfPortability(new Map([['src/walk/x.ts', text]])).length).toBeGreaterThanOrEqual(1);
  });

  test.each([
    'export const a = Math.sqrt(2) + Math.floor(2.5) + Math.PI;',
    '/** 2 ** 3, Math.sin */ export const a = "Math.sin(1) ** 2";',
    'export const a = new Date(0); export const b = { Math: 1 }.Math;',
  ])('and lets pass: %s', (text) => {
    expect(violationsOfPortability(new Map([['src/walk/x.ts', text]]))).toEqual([]);
  });
});

test('no file under version control names a path of some machine or the host of a registry', () => {
  // Put together here so that this file does not name what it looks for.
  const roots = ['work', 'root', 'home', 'Users', 'tmp'].join('|');
  const path = new RegExp(`(?:^|[\\s"'\`(=:])/(?:${roots})/[\\w.-]`, 'm');
  const registry = new RegExp(
    ['registry', '\\.', '(?:npmjs|yarnpkg|npmmirror)'].join('') + '|[\\w.-]+\\.jfrog\\.io|npm\\.pkg\\.github',
    'i',
  );
  const wrong: string[] = [];
  for (const file of trackedFiles()) {
    if (/\.(tif|png|jpe?g|gz|pbf|zip|woff2?|hgt)$/.test(file)) continue;
    const text = readFileSync(ROOT + file, 'utf8');
    for (const pattern of [path, registry]) {
      const found = pattern.exec(text);
      if (found !== null) wrong.push(`${file}: ${found[0].trim()}`);
    }
  }
  expect(wrong).toEqual([]);
});
