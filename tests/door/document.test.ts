import { expect, test } from 'vitest';
import { readDocument } from '../../src/door/document.ts';
import * as s from '../../src/door/shapes.ts';
import { UserError } from '../../src/door/user-error.ts';

const place = s.either(
  'start, or a table with a place',
  s.literal('start'),
  s.exactlyOne(s.table({ feature: s.maybe(s.text()), at: s.maybe(s.pair('easting, northing')) }), [
    'feature',
    'at',
  ]),
);
const shape = s.table({
  far: s.number({ min: 0, unit: 'metres' }),
  to: s.maybe(place),
  ground: s.maybe(s.choice(['dry', 'wet'])),
  date: s.maybe(s.isoDate()),
  legs: s.maybe(s.list(s.table({ to: place }), { min: 1, max: 3 })),
});

function said(text: string): string {
  try {
    readDocument(text, 'f.yaml', shape);
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return (error as UserError).message;
  }
  return 'read';
}

test.each([
  ['far: .nan', 'f.yaml:1:6: far is not as it should be (got NaN, expected a number of metres of 0 or more)'],
  ['far: -3', 'f.yaml:1:6: far is not as it should be (got -3, expected a number of metres of 0 or more)'],
  ['far: "3"', 'f.yaml:1:6: far is not as it should be (got "3", expected a number of metres of 0 or more)'],
  [
    'faar: 1',
    'f.yaml:1:1: faar is not a key known here; did you mean far? (expected far, to, ground, date, legs)',
  ],
  ['ground: dry', 'f.yaml:1:1: far is missing'],
  [
    'far: 1\nground: wte',
    'f.yaml:2:9: ground is not as it should be; did you mean wet? (got "wte", expected dry or wet)',
  ],
  [
    'far: 1\ndate: 2026-02-30',
    'f.yaml:2:7: date is not as it should be (got "2026-02-30", expected a date that exists, written like 2026-11-25)',
  ],
  [
    'far: 1\nto: {featur: x}',
    'f.yaml:2:6: to.featur is not a key known here; did you mean feature? (expected feature, at)',
  ],
  [
    'far: 1\nto: {at: [1, .inf]}',
    'f.yaml:2:14: to.at[1] is not as it should be (got Infinity, expected a number)',
  ],
  [
    'far: 1\nto: {feature: x, at: [1, 2]}',
    'f.yaml:2:5: to is not as it should be (got a table with feature, at, expected exactly one of feature or at)',
  ],
  [
    'far: 1\nto: begin',
    'f.yaml:2:5: to is not as it should be (got "begin", expected start, or a table with a place)',
  ],
  [
    'far: 1\nlegs:\n  - to: start\n  - to: {att: [1, 2]}',
    'f.yaml:4:10: legs[1].to.att is not a key known here; did you mean at? (expected feature, at)',
  ],
  [
    'far: 1\nlegs: []',
    'f.yaml:2:7: legs is not as it should be (got an empty list, expected a list of 1 to 3 entries)',
  ],
  [
    '[1]',
    'f.yaml:1:1: the document is not as it should be (got a list of 1, expected a table of keys and values)',
  ],
  ['', 'f.yaml:1:1: the document is not as it should be (got nothing, expected a table of keys and values)'],
])('%j', (text, message) => {
  expect(said(text)).toBe(message);
});

test('broken YAML is told with its line', () => {
  expect(said('far: [')).toMatch(/^f\.yaml:1:7: not readable as YAML or JSON: /);
  expect(said('far: 1\nfar: 2')).toMatch(/^f\.yaml:2:1: not readable .*unique/);
  expect(said('{"far": 1,,}')).toMatch(/^f\.yaml:1:\d+: not readable/);
});

test('JSON and YAML say the same', () => {
  const json = readDocument('{"far": 1.5, "to": {"at": [1, 2]}}', 'f.json', shape).value;
  expect(json).toEqual(readDocument('far: 1.5\nto: {at: [1, 2]}', 'f.yaml', shape).value);
});

test('names from the prototype are ordinary unknown keys', () => {
  for (const key of ['__proto__', 'constructor', 'toString']) {
    expect(said(`far: 1\n${key}: 2`)).toContain(`${key} is not a key known here`);
  }
  expect(({} as { polluted?: number }).polluted).toBeUndefined();
});

test.each([
  ['dashes', '- '.repeat(200_000)],
  ['brackets', '['.repeat(200_000)],
  ['braces', '{a: '.repeat(100_000)],
  ['colons', '? '.repeat(100_000)],
  ['indents', Array.from({ length: 2000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  [
    'laughs',
    Array.from({ length: 20 }, (_, i) => `a${i}: &a${i} [${i === 0 ? 1 : `*a${i - 1},`.repeat(9)}]`).join(
      '\n',
    ),
  ],
  ['unknown alias', 'far: *nobody'],
  ['size', `far: ${' '.repeat(5_000_000)}1`],
  ['one long quote', `far: "${'a'.repeat(900_000)}`],
  ['tags', 'far: !!js/function "x"'],
])('a hostile document is refused in a moment: %s', (_, text) => {
  // Processor time: what else runs on the machine does not count.
  const before = process.cpuUsage();
  expect(said(text)).toMatch(/^f\.yaml/);
  expect(process.cpuUsage(before).user / 1e6).toBeLessThan(3);
});

test('an anchor used twice is read', () => {
  expect(said('far: 1\nlegs: [&a {to: start}, *a]')).toBe('read');
  expect(said('far: 1\nlegs: [&a {to: nowhere}, *a]')).toMatch(/^f\.yaml:2:16: legs\[0\]\.to/);
});
