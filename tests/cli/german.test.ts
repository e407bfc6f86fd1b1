import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkReport } from '../../src/report/check.ts';
import { SPEED_MODELS } from '../../src/speed/models.ts';
import { englishIn, saidOn } from '../viz/said.ts';
import { buildProgram, type Run, run } from './program.ts';
import { SMALL_TASK, writeSmallGround } from './small-ground.ts';

/*
 * The night task of the demo, in German: whatever the report, its cards, its maps and its task sheet show is looked through for English. Names
 * that people gave to routes and things stay as they are, and so do the titles of published sources.
 */
const TASK = fileURLToPath(new URL('../../terrains/demo/night.task.yaml', import.meta.url));
let program = '';
let home = '';
let done: Run;
const mistwise = (...words: string[]): Promise<Run> => run(program, words, home);
const file = (name: string) => readFileSync(join(home, 'de', name), 'utf8');

beforeAll(async () => {
  program = await buildProgram();
  home = mkdtempSync(join(tmpdir(), 'mistwise-german-'));
  writeSmallGround(home);
  writeFileSync(join(home, 'small.task.yaml'), SMALL_TASK);
  done = await mistwise('compare', TASK, '--language', 'de', '--trials', '40', '--out', 'de');
}, 120_000);
afterAll(() => {
  rmSync(home, { recursive: true, force: true });
  rmSync(dirname(program), { recursive: true, force: true });
});

/** Names that people gave, and titles of sources, longest first. */
function given(): string[] {
  const report = checkReport(JSON.parse(file('report.json')));
  const features = JSON.parse(readFileSync(join(dirname(TASK), 'features.geojson'), 'utf8')) as {
    features: { properties: { name?: string } }[];
  };
  return [
    report.task.name,
    report.task.terrain,
    report.ground.source,
    ...report.attributions,
    ...report.candidates.filter((c) => c.origin === 'drawn').map((c) => c.name),
    ...SPEED_MODELS.map((m) => m.source),
    // what the program names itself ("head of Oskle Sike") is not given
    ...features.features.flatMap((f) => f.properties.name ?? []).filter((n) => !n.includes(' of ')),
  ];
}

test('every page is in German and says so', () => {
  expect(done.code).toBe(0);
  const names = given();
  const pages = readdirSync(join(home, 'de')).filter((name) => name.endsWith('.html'));
  expect(pages).toHaveLength(10);
  for (const page of pages) {
    const html = file(page);
    expect(html, page).toMatch(/^<!doctype html>\s*<html lang="de">/i);
    const texts = saidOn(html);
    expect(texts.length, page).toBeGreaterThan(10);
    expect(englishIn(texts, names), page).toEqual([]);
  }
  expect(saidOn(file('index.html'))).toContain('Wo Gruppen von der Linie abkommen');
  // the sieve holds
  expect(englishIn(['Walk on a bearing of 076° for 240 m'], [])).not.toEqual([]);
});

test('so are the document, the routes to hand on, and what the terminal shows', () => {
  const report = checkReport(JSON.parse(file('report.json')));
  expect(report.reading).toEqual({ language: 'de', units: 'metric', bearings: 'degrees' });
  const names = given();
  const texts = [
    report.sentence,
    ...report.verdict,
    ...report.cautions,
    ...report.notes,
    ...report.assumptions.flatMap((a) => [a.name, a.value, a.source]),
    ...report.candidates.flatMap((c) => [
      c.name,
      c.strategy,
      c.why ?? '',
      c.wayOut?.says ?? '',
      ...(c.alike ?? []),
      ...(c.changes?.helped ?? []).map((h) => h.says),
      ...(c.leansOn ?? []).map((l) => l.name),
      ...c.legs.flatMap((l) => [l.says, l.from, l.to, l.catching?.name ?? '', ...l.ticks.map((t) => t.name)]),
    ]),
    ...(report.worthChecking ?? []).map((w) => w.name),
  ];
  expect(englishIn(texts, [...names, 'irmischer-clarke'])).toEqual([]);
  expect(report.sentence).toContain('bei Dunkelheit; eine sehr erfahrene Gruppe von 2');
  expect(report.candidates.some((c) => c.origin === 'found' && /^(über|ab|geradewegs) /.test(c.name))).toBe(
    true,
  );
  const table = done.out.replace(/^.*Der Bericht liegt in .*$/m, '');
  const shortened = report.candidates.filter((c) => c.name.length > 40).map((c) => `${c.name.slice(0, 39)}…`);
  expect(englishIn(table.split('\n'), [...names, ...shortened])).toEqual([]);
  expect(done.err).toMatch(/Routen werden gegangen: 100 %/);
});

test('a single attempt is told in German', async () => {
  const { code, out } = await mistwise('compare', 'small.task.yaml', '--language', 'de', '--trial', '3');
  expect(code).toBe(0);
  expect(out).toMatch(/Versuch 3: .* nach \d+ Minuten/);
  expect(out).toMatch(/Abschnitt 1 {2}steht am Start \(in Wahrheit \d+ m neben dem vermuteten Ort/);
  expect(englishIn(out.split('\n'), ['straight there', 'by the corner'])).toEqual([]);
});

test('no figure depends on the language or the units', async () => {
  const asked = ['compare', 'small.task.yaml', '--trials', '100', '--json'];
  const [english, german] = await Promise.all([
    mistwise(...asked),
    mistwise(...asked, '--language', 'de', '--units', 'imperial', '--bearings', 'mils'),
  ]);
  const figures = (text: string) =>
    JSON.stringify(JSON.parse(text), (key, value) =>
      key === 'reading' || typeof value === 'string' ? undefined : value,
    );
  expect(figures(german.out)).toBe(figures(english.out));
  expect(checkReport(JSON.parse(english.out)).reading).toBeUndefined();
  // the wall lies 195 m beyond the cairn (see compare.test.ts): 213 yd, said as 210
  expect(checkReport(JSON.parse(german.out)).candidates[0]!.legs[0]!.says).toMatch(
    /^Nach Marschzahl \d{4} Strich gehen, .*Auffanglinie: die Mauer, 210 yd dahinter/,
  );
});

describe('a wrong wish is one message', () => {
  test.each([
    ['--language', 'dee', '--language: not as it should be; did you mean de? (got "dee", expected en or de)'],
    ['--language', 'klingon', '(got "klingon", expected en or de)'],
    ['--units', 'imperal', 'did you mean imperial? (got "imperal", expected metric or imperial)'],
    ['--bearings', 'mil', 'did you mean mils? (got "mil", expected degrees or mils)'],
  ])('%s %s', async (option, value, message) => {
    const { code, out, err } = await mistwise('compare', TASK, option, value, '--out', 'wrong');
    expect(err).toContain(message);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect([code, out]).toEqual([2, '']);
  });
});

describe('help and faults are German where German is wanted', () => {
  const CODE = ['--map-date', '--seed', '--bearings', 'compare', 'check', '--no-landforms', '(metrisch)'];

  test.each([[], ['compare'], ['prepare'], ['check'], ['schema'], ['page']] as const)(
    'help of %s',
    async (...command: (string | undefined)[]) => {
      const { code, out, err } = await mistwise(
        '--language',
        'de',
        ...command.filter((c) => c !== undefined),
        '--help',
      );
      expect([code, err]).toEqual([0, '']);
      expect(out).toMatch(/^Aufruf: mistwise/);
      expect(englishIn(out.split('\n'), CODE)).toEqual([]);
      expect(out).not.toMatch(/usage|options|commands|default|folder|file>/i);
    },
  );

  test('English stays what is said where nobody wishes otherwise', async () => {
    const { out } = await mistwise('compare', '--help');
    expect(out).toMatch(/^Usage: mistwise compare \[options\] <task>/);
  });

  test.each([
    [['compare', '--language', 'de'], 'Fehler: das Argument „Aufgabe“ fehlt'],
    [
      ['--language=de', 'copare', 'x'],
      'Fehler: den Befehl „copare“ gibt es nicht\n(Gemeint war vielleicht compare?)',
    ],
    [
      ['compare', 'x', '--trals', '3', '--language', 'de'],
      'Fehler: die Option „--trals“ ist nicht bekannt\n(Gemeint war vielleicht --trials?)',
    ],
    [
      ['--language', 'de', 'compare', 'smal.task.yaml'],
      'smal.task.yaml: diese Datei gibt es nicht; gemeint war vielleicht small.task.yaml? (erwartet: Aufgabe)',
    ],
    [
      ['compare', 'small.task.yaml', '--language', 'de', '--trials', '0'],
      '--trials: nicht, wie es sein soll (vorgefunden: "0"; erwartet: eine ganze Zahl von 1 bis 10000000)',
    ],
    [
      ['check', 'misspelt.task.yaml', '--language', 'de'],
      'misspelt.task.yaml:2:1: terain: dieser Schlüssel ist hier nicht bekannt; gemeint war vielleicht terrain? (erwartet: ',
    ],
    [
      ['compare', 'nowhere.task.yaml', '--language', 'de'],
      'start.at: dieser Ort liegt außerhalb der Karte (vorgefunden: 1, 2; erwartet: Rechtswert ',
    ],
  ])('%j', async (words, message) => {
    writeFileSync(join(home, 'misspelt.task.yaml'), SMALL_TASK.replace(/^terrain:/m, 'terain:'));
    writeFileSync(
      join(home, 'nowhere.task.yaml'),
      SMALL_TASK.replace(/^start:.*$/m, 'start: { at: [1, 2] }'),
    );
    const { code, out, err } = await mistwise(...words);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(message);
  });
});
