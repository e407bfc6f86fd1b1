import ts from 'typescript';
import { beforeAll, describe, expect, test } from 'vitest';
import { faultText, formed, germanFault, germanMessage, germanPlace } from '../../src/door/german-faults.ts';
import { UserError } from '../../src/door/user-error.ts';
import { parseYaml } from '../../src/door/yaml.ts';
import { faultOf } from '../../src/features/geojson-text.ts';
import { PAGE_FAULTS } from '../../viz/page/german-faults.ts';
import { type FaultText, faultTexts } from '../architecture/fault-texts.ts';
import { ROOT, trackedFiles } from '../architecture/tracked.ts';
import { englishIn } from '../viz/said.ts';

/** Texts that reach a UserError in a way that nobody can read off the code: values of lists, arguments of a callback, shapes of documents. */
const ELSEWHERE: readonly [
  file: string,
  what: 'texts in' | 'first argument of' | 'second argument of',
  name: string,
][] = [
  ['src/cli/foreign-form.ts', 'texts in', 'FORMS'],
  ['src/cli/foreign-form.ts', 'texts in', 'CONVERT'],
  ['src/cli/foreign-form.ts', 'texts in', 'UNPACK'],
  ['src/features/given-doubt.ts', 'texts in', 'NUMBERS'],
  ['src/features/given-doubt.ts', 'texts in', 'SHARE'],
  ['src/features/given-doubt.ts', 'texts in', 'RANGE'],
  ['src/features/geojson-shapes.ts', 'second argument of', 'badGeometry'],
  ['src/study/schema.ts', 'first argument of', 'either'],
  ['src/terrain/read-terrain.ts', 'first argument of', 'either'],
  ['src/door/shapes.ts', 'texts in', 'said'],
  ['src/door/shapes.ts', 'first argument of', 'boolean'],
  ['src/door/shapes.ts', 'second argument of', 'check'],
];

/** Parts that are somebody's own words, numbers, or were looked at where they were first thrown. */
const OWN_WORDS =
  /: (?:undefined|what|expected|got|where|name|text|date|is|crs|terrain\.crs|place|path|goal|featuresCrs|error\.(?:what|got)|error instanceof Error.*|fault\.message|issue\.message|said\(error\)|firstLine\(error\)|(?:route|description|file|dropped\.image|first)\.name|(?:this\.)?options\.where|parsed\.place\(.*|flags\.split.*|wrong\[0\]!\.says|on\.unknown|filled\(tooLarge.*|.*\.slice\(.*|plainText\(.*|String\(.*|JSON\.stringify\(.*|`\$\{best\.length\}`|.*\.join\(.*)$/;

/** English that stays: keys and words of file formats, and what a fault quotes. */
const CODE = [
  ...[
    'along',
    'line',
    'to',
    'target',
    'towards',
    'counting: true',
    'true or false',
    'source',
    'mouth',
    'start',
    'end',
  ],
  ...[
    'wall',
    'stream',
    'path',
    'spring',
    'handrail',
    'bearing',
    'timing',
    'sight',
    'north-east',
    'feature: id',
  ],
  ...[
    'features.geojson',
    'features:',
    'nodes, ways and relations',
    'below, above',
    'under features',
    'LineString',
    'contour',
  ],
  ...[
    '{ at:',
    'ground.layers',
    '--map-date',
    '*.task',
    'property,value,kind',
    'RFC7946=YES',
    'metres',
    'West',
    'task',
  ],
  ...['true', 'aim-off', 'box', 'features', 'name', '--box', '-->'],
];

let texts: readonly FaultText[] = [];
let unknown: readonly string[] = [];

beforeAll(() => {
  const paths = trackedFiles().filter(
    (p) => /^(src|viz)\/.*(?<!\.d)\.ts$/.test(p) && !/^viz\/report\/|german-faults\.ts$/.test(p),
  );
  const program = ts.createProgram(
    paths.map((p) => ROOT + p),
    {
      noEmit: true,
      noLib: true,
      noResolve: true,
      types: [],
      allowImportingTsExtensions: true,
      module: ts.ModuleKind.ESNext,
      moduleResolution: ts.ModuleResolutionKind.Bundler,
      target: ts.ScriptTarget.ES2022,
    },
  );
  const found = faultTexts(
    program,
    paths.map((p) => ROOT + p),
  );
  const more = ELSEWHERE.flatMap(([file, what, name]) =>
    elsewhere(program.getSourceFile(ROOT + file)!, what, name, found.wordings),
  );
  texts = [...found.texts, ...more];
  unknown = found.unknown.map((line) => line.replace(ROOT, ''));
}, 60_000);

function elsewhere(
  source: ts.SourceFile,
  what: (typeof ELSEWHERE)[number][1],
  name: string,
  wordings: (node: ts.Expression) => string[],
): FaultText[] {
  const found: FaultText[] = [];
  const add = (node: ts.Expression) => {
    for (const text of wordings(node))
      if (text !== '{}') found.push({ part: 'expected', text, at: `${source.fileName} ${name}` });
  };
  const inside = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node)) add(node);
    else ts.forEachChild(node, inside);
  };
  const visit = (node: ts.Node): void => {
    if (what === 'texts in' && ts.isVariableDeclaration(node) && node.name.getText() === name) {
      if (
        ts.isObjectLiteralExpression(strip(node.initializer!)) ||
        ts.isArrayLiteralExpression(strip(node.initializer!))
      )
        inside(node.initializer!);
      else add(node.initializer!);
    }
    if (
      what !== 'texts in' &&
      ts.isCallExpression(node) &&
      node.expression.getText().split('.').at(-1) === name
    ) {
      const given = node.arguments[what === 'first argument of' ? 0 : 1];
      if (given !== undefined) add(given);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  expect(found.length, `${what} ${name} in ${source.fileName}`).toBeGreaterThan(0);
  return found;
}

function strip(node: ts.Expression): ts.Expression {
  return ts.isAsExpression(node) || ts.isSatisfiesExpression(node) ? strip(node.expression) : node;
}

/** With a number in every hole; null where only marks, magic bytes and names of files and systems are left. */
function filled(text: string): string | null {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: magic bytes of files are no words
  if (/[\u0000-\u001f]/.test(text)) return null;
  const words = text
    .replaceAll('{}', '')
    .replaceAll(/EPSG:(4326)?|[\w-]*\.(task\.)?(json|yaml)|<!DOCTYPE/g, '');
  return /[A-Za-z]{2,}/.test(words) ? text.replaceAll('{}', '7') : null;
}

describe('German forms of what can be wrong', () => {
  test('are there for every wording in the sources', () => {
    expect(texts.length).toBeGreaterThan(500);
    const missing = texts.flatMap(({ part, text, at }) => {
      const said = filled(text);
      if (said === null || part === 'where') return [];
      return formed(said, PAGE_FAULTS) === null ? [`${at.replace(ROOT, '')} ${part}: ${text}`] : [];
    });
    expect([...new Set(missing)]).toEqual([]);
  });

  test('hold no English themselves', () => {
    const english = texts.flatMap(({ part, text }) => {
      const said = filled(text);
      if (said === null) return [];
      const german = part === 'where' ? germanPlace(said) : (formed(said, PAGE_FAULTS) ?? '');
      return englishIn([german], CODE);
    });
    expect([...new Set(english)]).toEqual([]);
  });

  test('a part that only a run knows is one of those looked at', () => {
    expect(unknown.filter((line) => !OWN_WORDS.test(line))).toEqual([]);
  });
});

describe('words of readers that are not ours', () => {
  const point = (coordinates: unknown) => ({
    type: 'Feature',
    properties: {},
    geometry: { type: 'Point', coordinates },
  });
  const shape = (type: string, coordinates: unknown) => ({
    type: 'Feature',
    properties: {},
    geometry: { type, coordinates },
  });
  const all = (...features: unknown[]) => JSON.stringify({ type: 'FeatureCollection', features });

  test.each([
    ['{"type":"FeatureCollection"}'],
    ['{"type":"FeatureCollection","features":{}}'],
    [all(point(['a', 2]))],
    [all(point([1]))],
    [all(shape('LineString', [[0, 0]]))],
    [all(shape('Polygon', [[[0, 0], [1, 1], [2, 2], [3, 3]]]))], // biome-ignore format: one ring
    [all({ properties: {}, geometry: null })],
    [all(shape('Pointy', [1, 2]))],
    [all({ ...point([1, 2]), properties: 3 })],
  ])('GeoJSON: %s', (text) => {
    const german = faultText(faultOf(text, 'a.geojson', 'the geometry is wrong'), 'de');
    expect(german).toContain('GeoJSON nach RFC 7946');
    expect(englishIn([german.replace(/features|properties|type/g, '·')], [])).toEqual([]);
  });

  test.each([
    ['a: 1\n b: 2'],
    ['a: [1'],
    ['a: "x'],
    ["a: 'x"],
    ['a: 1\na: 2'],
    ['a:\n  b: 1\n c: 2'],
    ['\tb: 1'],
    ['a: @x'],
    ['a: b: c'],
    ['a\nb: 1'],
    ['a: 1\n- b'],
    ['a: {b: 1'],
  ])('YAML: %j', (text) => {
    const error = (() => {
      try {
        parseYaml(text, 'a.yaml');
      } catch (thrown) {
        return thrown as UserError;
      }
      throw new Error('it was read');
    })();
    expect(englishIn([faultText(error, 'de')], [])).toEqual([]);
    expect(faultText(error, 'de')).toContain('nicht als YAML oder JSON lesbar');
  });
});

describe('a fault in German', () => {
  test('has its place, what is wrong, what stands there and what was expected', () => {
    const error = new UserError({
      what: 'routes[0].legs[2].to: no such feature on this terrain',
      where: 'my.task.yaml:12:9',
      got: '"peat-hous"; did you mean peat-house?',
      expected: 'the id of a feature in features.geojson',
    });
    expect(faultText(error, 'en')).toBe(error.message);
    expect(faultText(error, 'de')).toBe(
      'my.task.yaml:12:9: routes[0].legs[2].to: ein solches Objekt gibt es auf diesem Gelände nicht (vorgefunden: "peat-hous"; gemeint war vielleicht peat-house?; erwartet: die id eines Objekts in features.geojson)',
    );
  });

  test('says places, and what people wrote stays', () => {
    const fault = { what: 'a row has no place', where: 'own.csv, line 3', got: 'two routes have this' };
    expect(germanFault(fault)).toBe(
      'own.csv, Zeile 3: eine Zeile hat keinen Ort (vorgefunden: two routes have this)',
    );
    expect(germanPlace('route "a, line 3 of it", leg 2')).toBe('Route "a, line 3 of it", Abschnitt 2');
  });

  test('is found again in a message that crossed from another thread', () => {
    const wrong = [
      {
        what: 'the drawn line does not reach the target',
        where: 'route "x: y"',
        got: '312 m away from it',
        expected: 'within 50 m',
      },
      { what: 'the GeoTIFF is damaged: a block lies beyond its end', got: 'block 3' },
      { what: 'side of a cell', expected: '0.1 to 1000 m' },
      { what: 'the route is empty', where: 'tasks/a.yaml:3:1' },
      { what: 'no words of ours' },
      {
        what: 'visibility is not as it should be',
        got: '"a (b)", expected',
        expected: 'a number of metres from 1 to 100000',
      },
    ];
    for (const fault of wrong) expect(germanMessage(new UserError(fault).message)).toBe(germanFault(fault));
  });

  test('a hostile text that repeats a form takes no time to speak of', { timeout: 5000 }, () => {
    for (const piece of [
      'the GeoTIFF is damaged: ',
      'an alias cannot be followed: ',
      ' of a feature is wrong',
      '; did you mean ',
    ])
      expect(germanMessage(piece.repeat(40).slice(0, 400)).length).toBeGreaterThan(100);
  });
});
