import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DOMParser } from 'linkedom/worker';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkReport } from '../../src/report/check.ts';
import { SPEED_MODELS } from '../../src/speed/models.ts';
import { buildProgram, type Run, run } from './program.ts';

/*
 * The night task of the demo, in German: whatever the report, its cards, its maps and its task sheet show is looked through for English. Names
 * that people gave to routes and things stay as they are, and so do the titles of published sources.
 */
const TASK = fileURLToPath(new URL('../../terrains/demo/night.task.yaml', import.meta.url));
const ENGLISH =
  /\b(the|and|of|with|from|by|for|is|are|has|this|that|which|where|when|not|none|no|to|at|on|legs?|bearings?|found|find|lost|part(?:y|ies)|attempts?|ground|wet|cloud|visibility|minutes|metres|climb|streams?|walls?|paths?|fences?|hazards?|assessed|search|unbeaten|drawn|target|double|paces|turn(?:ed)?|back|walk(?:ed)?|follow|aim(?:ing)?|tick|catching|map|layers?|features?|names|relief|data|days?|night|dark|expert|competent|novice|routes|sheet|task|handrail|sight|junction|corner|crossing|end|seed|value|mark|source|table|most|more|under|over|yes|allowed|limit|straight|north|east|south|west|left|right|about|such)\b/gi;

let program = '';
let home = '';
let done: Run;
const mistwise = (...words: string[]): Promise<Run> => run(program, words, home);
const file = (name: string) => readFileSync(join(home, 'de', name), 'utf8');

beforeAll(async () => {
  program = await buildProgram();
  home = mkdtempSync(join(tmpdir(), 'mistwise-german-'));
  done = await mistwise('compare', TASK, '--language', 'de', '--trials', '40', '--out', 'de');
}, 120_000);
afterAll(() => {
  rmSync(home, { recursive: true, force: true });
  rmSync(dirname(program), { recursive: true, force: true });
});

/** What a page says to eyes and ears: text nodes, and the attributes that are read out or shown. */
function said(html: string): string[] {
  const document = new DOMParser().parseFromString(html, 'text/html');
  const texts: string[] = [];
  const look = (node: Node): void => {
    if (node.nodeType === 3) texts.push(node.textContent ?? '');
    if (node.nodeType === 1) {
      const element = node as Element;
      if (['STYLE', 'SCRIPT'].includes(element.tagName.toUpperCase())) return;
      for (const { name, value } of Array.from(element.attributes)) {
        if (/^(aria-label|title|alt|data-head|data-say-.*)$/.test(name))
          texts.push(value.replaceAll(/\{\w+\}/g, ''));
      }
    }
    for (const child of Array.from(node.childNodes)) look(child);
  };
  look(document.documentElement as unknown as Node);
  return texts.map((t) => t.replaceAll('\u00ad', '').trim()).filter((t) => t !== '');
}

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
  ].sort((a, b) => b.length - a.length);
}

function english(texts: readonly string[], names: readonly string[]): string[] {
  return texts.flatMap((text) => {
    const own = names.reduce((rest, name) => rest.replaceAll(name, '·'), text);
    return (own.match(ENGLISH) ?? []).map((word) => `${word}: ${own.slice(0, 120)}`);
  });
}

test('every page is in German and says so', () => {
  expect(done.code).toBe(0);
  const names = given();
  const pages = readdirSync(join(home, 'de')).filter((name) => name.endsWith('.html'));
  expect(pages).toHaveLength(10);
  for (const page of pages) {
    const html = file(page);
    expect(html, page).toMatch(/^<!doctype html>\s*<html lang="de">/i);
    const texts = said(html);
    expect(texts.length, page).toBeGreaterThan(10);
    expect(english(texts, names), page).toEqual([]);
  }
  expect(said(file('index.html'))).toContain('Wo Gruppen von der Linie abkommen');
  // the sieve holds
  expect(english(['Walk on a bearing of 076° for 240 m'], [])).not.toEqual([]);
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
  expect(english(texts, [...names, 'irmischer-clarke'])).toEqual([]);
  expect(report.sentence).toContain('bei Dunkelheit; eine sehr erfahrene Gruppe von 2');
  expect(report.candidates.some((c) => c.origin === 'found' && /^(über|ab|geradewegs) /.test(c.name))).toBe(
    true,
  );
  const table = done.out.replace(/^.*Der Bericht liegt in .*$/m, '');
  const shortened = report.candidates.filter((c) => c.name.length > 40).map((c) => `${c.name.slice(0, 39)}…`);
  expect(english(table.split('\n'), [...names, ...shortened])).toEqual([]);
  expect(done.err).toMatch(/Routen werden gegangen: 100 %/);
});

test('a single attempt is told in German', async () => {
  const { code, out } = await mistwise('compare', TASK, '--language', 'de', '--trials', '40', '--trial', '3');
  expect(code).toBe(0);
  expect(out).toMatch(/Versuch 3: .* nach \d+ Minuten/);
  expect(out).toMatch(/Abschnitt 1 {2}steht am Start \(in Wahrheit \d+ m neben dem geglaubten Ort/);
  expect(english(out.split('\n'), given())).toEqual([]);
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
