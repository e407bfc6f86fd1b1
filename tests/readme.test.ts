import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openTask } from '../src/cli/open-task.ts';
import { openTerrain } from '../src/cli/open-terrain.ts';
import { readTaskDocument } from '../src/study/read-task.ts';
import { resolveTask } from '../src/study/resolve-task.ts';
import { ROOT, trackedFiles } from './architecture/tracked.ts';

const readme = readFileSync(`${ROOT}README.md`, 'utf8');

/** Fenced blocks of a language. */
function blocks(text: string, language: string): string[] {
  return [...text.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)]
    .filter((found) => found[1] === language)
    .map((found) => found[2]!);
}

/** Headings as the anchors that a hosting site makes of them. */
function anchors(text: string): Set<string> {
  const heads = [...text.matchAll(/^#+ (.*)$/gm)].map((found) => found[1]!);
  return new Set(
    heads.map((head) =>
      head
        .toLowerCase()
        .replace(/[^\w\- ]/g, '')
        .replaceAll(' ', '-'),
    ),
  );
}

describe('every link leads somewhere', () => {
  const documents = trackedFiles().filter(
    (path) => path.endsWith('.md') && !path.startsWith('tests/fixtures/'),
  );

  test.each(documents)('%s', (path) => {
    const text = readFileSync(ROOT + path, 'utf8');
    const links = [...text.matchAll(/\]\(([^)\s]+)\)/g)].map((found) => found[1]!);
    const broken = links.filter((link) => {
      if (/^(https?|mailto):/.test(link)) return false;
      const [file = '', anchor] = link.split('#');
      const target = file === '' ? path : join(dirname(path), file);
      if (!existsSync(ROOT + target)) return true;
      return anchor !== undefined && !anchors(readFileSync(ROOT + target, 'utf8')).has(anchor);
    });
    expect(broken).toEqual([]);
  });
});

test('every npm script that the documents name exists', () => {
  const { scripts } = JSON.parse(readFileSync(`${ROOT}package.json`, 'utf8')) as { scripts: object };
  for (const path of ['README.md', 'DEVELOPERS.md']) {
    const text = readFileSync(ROOT + path, 'utf8');
    const named = [...text.matchAll(/npm (?:run )?([a-z]+)/g)].map((found) => found[1]!);
    const own = named.filter((name) => !['ci', 'run'].includes(name));
    expect(own.length).toBeGreaterThan(1);
    expect(Object.keys(scripts)).toEqual(expect.arrayContaining(own));
  }
});

test('every path in a command of the README exists, but for the user’s own', () => {
  const commands = blocks(readme, 'sh').join('\n');
  const paths = commands.match(/\b(?:terrains|reports|tests|shared)\/[\w./-]+/g) ?? [];
  expect(paths.filter((path) => !existsSync(ROOT + path))).toEqual([]);
});

test('the task in the README is a task, on ground that is there', async () => {
  const tasks = blocks(readme, 'yaml').filter((text) => text.startsWith('version:'));
  expect(tasks.length).toBeGreaterThan(0);
  for (const text of tasks) {
    const document = readTaskDocument(text, 'README.md');
    resolveTask(document, await openTerrain(ROOT + document.value.terrain));
  }
});

describe('every task under terrains/ is read and resolved', () => {
  const tasks = trackedFiles().filter((path) => /^terrains\/.*\.task\.(ya?ml|json)$/.test(path));

  test.each(tasks)('%s', async (path) => {
    const { task, terrain } = await openTask(ROOT + path);
    expect(task.features.length).toBeGreaterThan(0);
    if (!terrain.invented) expect(terrain.attribution).not.toBe('');
  });
});
