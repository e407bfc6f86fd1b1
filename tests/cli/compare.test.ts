import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkReport } from '../../src/report/check.ts';
import { buildProgram, ended, type Run, run, start } from './program.ts';
import { SMALL_TASK, writeSmallGround } from './small-ground.ts';

let program = '';
let home = '';
const task = 'small.task.yaml';

beforeAll(async () => {
  program = await buildProgram();
  home = mkdtempSync(join(tmpdir(), 'mistwise-compare-'));
  writeSmallGround(home);
  writeFileSync(join(home, task), SMALL_TASK);
});
afterAll(() => {
  rmSync(home, { recursive: true, force: true });
  rmSync(dirname(program), { recursive: true, force: true });
});

const mistwise = (...words: string[]): Promise<Run> => run(program, words, home);
const read = (...path: string[]) => readFileSync(join(home, ...path), 'utf8');

describe('a task', () => {
  let done: Run;
  beforeAll(async () => {
    done = await mistwise('compare', task, '--out', 'first', '--workers', '2');
  });

  test('becomes a folder with a report, its document and its routes', () => {
    expect(done.err).not.toContain('fault');
    expect(done.code).toBe(0);
    expect(readdirSync(join(home, 'first')).sort()).toEqual([
      'card-a.html',
      'card-b.html',
      'index.html',
      'map-10000.html',
      'map-25000.html',
      'report.json',
      'routes.csv',
      'routes.geojson',
      'routes.gpx',
      'task-sheet.html',
    ]);
    const report = checkReport(JSON.parse(read('first', 'report.json')));
    expect(report.candidates.map((c) => c.name)).toEqual(['straight there', 'by the corner']);
    for (const c of report.candidates) {
      expect(c.success.trials).toBe(1000);
      expect(Object.values(c.outcomes).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
    }
    // what the cards print, and the attempts that are told
    for (const c of report.candidates) {
      expect(c.walks!.map((w) => w.track.length > 1 && w.believedTrack.length > 1)).toContain(true);
      const ends = c.legs.flatMap((l) => l.stopByMinutes ?? []);
      expect(ends.length).toBeGreaterThan(0);
      expect(ends).toEqual([...ends].sort((a, b) => a - b));
    }
    // the wall lies 150 m north of the cairn, the leg comes in from (-500, -600): 150 × 781 / 600
    expect(report.candidates[0]!.legs[0]!.catching).toEqual({ name: 'the wall', beyondMetres: 195 });
    expect(read('first', 'card-a.html')).toContain('Way out');
    expect(read('first', 'task-sheet.html')).not.toContain('straight there');
    expect(report.seed).toBe(7);
    expect(read('first', 'index.html')).toContain('straight there');
    expect(read('first', 'routes.gpx')).toContain('by the corner');
  });

  test('is told as a table under the sentence of conditions, with the place of the report', () => {
    const report = checkReport(JSON.parse(read('first', 'report.json')));
    expect(done.out).toContain(report.sentence);
    const share = Math.round(report.candidates[0]!.success.share * 100);
    expect(done.out).toMatch(new RegExp(`A\\*?\\s+straight there\\s+${share} \\(\\d+-\\d+\\)`));
    expect(done.out).toContain('first/index.html');
  });

  test('tells its progress as lines when nobody watches', () => {
    expect(done.err).toMatch(/Reading the task\n[\s\S]*Walking them: 50 %\n[\s\S]*Walking them: 100 %\n/);
    expect(done.err).not.toContain('\u001b');
  });

  test('gives the same bytes again, with one worker and with three', async () => {
    for (const workers of ['1', '3']) {
      const again = await mistwise('compare', task, '--out', `with-${workers}`, '--workers', workers);
      expect(again.code).toBe(0);
      expect(read(`with-${workers}`, 'report.json')).toBe(read('first', 'report.json'));
      expect(read(`with-${workers}`, 'index.html')).toBe(read('first', 'index.html'));
    }
  });

  test('can be asked for as JSON, with another seed and other trials, and then writes no folder', async () => {
    const before = readdirSync(home);
    const { code, out } = await mistwise('compare', task, '--json', '--seed', '8', '--trials', '300');
    expect(code).toBe(0);
    const report = checkReport(JSON.parse(out));
    expect([report.seed, report.candidates[0]?.success.trials]).toEqual([8, 300]);
    expect(readdirSync(home)).toEqual(before);
  });

  test('goes into reports/ and its name where no folder is said', async () => {
    const { code } = await mistwise('compare', task, '--trials', '100');
    expect(code).toBe(0);
    expect(existsSync(join(home, 'reports', 'small', 'index.html'))).toBe(true);
    rmSync(join(home, 'reports'), { recursive: true });
  });
});

describe('something wrong is one message, exit 2 and no folder', () => {
  const edits: readonly [string, (text: string) => string, string][] = [
    [
      'a misspelt key',
      (t) => t.replace('trials:', 'trails:'),
      'wrong.task.yaml:16:1: trails is not a key known here; did you mean trials?',
    ],
    ['an unknown feature', (t) => t.replace('feature: fold', 'feature: fodl'), 'did you mean fold?'],
    [
      'off the raster',
      (t) => t.replace('{ feature: fold }', '{ at: [1, 2] }'),
      'start.at: this place is off the map (got 1, 2, expected easting 400000 to 401200',
    ],
    ['NaN', (t) => t.replace('120', '.nan'), 'conditions.visibility is not as it should be (got NaN'],
    ['negative visibility', (t) => t.replace('120', '-5'), '(got -5, expected a number of metres from 1 to'],
    [
      'a target in a barrier',
      (t) => t.replace('{ feature: cairn }', '{ at: [400950, 500350] }'),
      'inside a barrier (got a place in mere, a lake',
    ],
    [
      'an empty route',
      (t) => t.replace(/legs:\n.*catching.*\n/, 'legs: []\n'),
      'routes[0].legs is not as it should be (got an empty list',
    ],
    [
      'no such terrain',
      (t) => t.replace('terrain: ground', 'terrain: grund'),
      'wrong.task.yaml:2:10: terrain: there is no such folder',
    ],
    ['no YAML', () => '{[', 'not readable as YAML or JSON'],
    [
      'an unreachable drawn line',
      (t) => t.replace(/legs:\n.*catching.*\n/, 'line: drawn.gpx\n'),
      'drawn.gpx: there is no such file',
    ],
  ];

  test.each(edits)('%s', async (_, edit, message) => {
    writeFileSync(join(home, 'wrong.task.yaml'), edit(SMALL_TASK));
    const { code, out, err } = await mistwise('compare', 'wrong.task.yaml', '--out', 'wrong');
    expect(err).toContain(message);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect([code, out]).toEqual([2, '']);
    expect(existsSync(join(home, 'wrong'))).toBe(false);
  });

  test.each([
    [['compare', 'smal.task.yaml'], 'smal.task.yaml: there is no such file; did you mean small.task.yaml?'],
    [['compare', task, '--trails', '5'], 'Did you mean --trials?'],
    [
      ['compare', task, '--trials', 'many'],
      '--trials: not as it should be (got "many", expected a whole number from 1',
    ],
    [['compare', task, '--workers', '0'], '--workers: not as it should be (got "0"'],
    [['compare', task, '--out', task], 'the output would go into a file'],
    [['compare'], "missing required argument 'task'"],
    [['comapre', task], 'Did you mean compare?'],
  ])('%j', async (words, message) => {
    const { code, out, err } = await mistwise(...words);
    expect(err).toContain(message);
    expect([code, out]).toEqual([2, '']);
  });

  test('a name in a file cannot steer the terminal', async () => {
    writeFileSync(
      join(home, 'wrong.task.yaml'),
      SMALL_TASK.replace('feature: fold', 'feature: "\\u001b[2J\\u009b"'),
    );
    const { err } = await mistwise('compare', 'wrong.task.yaml');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
    expect(err).not.toMatch(/[\u001b\u009b]/);
  });
});

test.each(['SIGINT', 'SIGTERM'] as const)('%s while it walks leaves nothing behind', async (signal) => {
  const before = readdirSync(home);
  const child = start(program, ['compare', task, '--trials', '5000000', '--out', 'stopped'], home);
  const end = ended(child);
  await new Promise<void>((resolve) => {
    child.stderr?.on('data', (text: string) => {
      if (text.includes('Walking them')) resolve();
    });
  });
  child.kill(signal);
  const { code, err } = await end;
  expect(code).toBe(signal === 'SIGINT' ? 130 : 143);
  expect(err).toContain('nothing was written');
  expect(readdirSync(home)).toEqual(before);
});

test('help names every command, and the schema every parameter of a skill', async () => {
  const help = await mistwise('--help');
  expect(help.code).toBe(0);
  for (const command of ['compare', 'prepare', 'check', 'schema', 'page'])
    expect(help.out).toContain(command);
  expect((await mistwise('--version')).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  const schema = JSON.parse((await mistwise('schema')).out) as {
    properties: { party: { properties: { set: { properties: object } } } };
  };
  const { skillOf } = await import('../../src/party/presets.ts');
  expect(Object.keys(schema.properties.party.properties.set.properties)).toEqual(
    expect.arrayContaining(Object.keys(skillOf('novice'))),
  );
});
