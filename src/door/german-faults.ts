import { DOCUMENTS } from './german/documents.ts';
import { FEATURES } from './german/features.ts';
import { FILES } from './german/files.ts';
import type { Forms } from './german/form.ts';
import { HEIGHTS } from './german/heights.ts';
import { ROUTES } from './german/routes.ts';
import type { Language } from './reading.ts';
import type { UserError } from './user-error.ts';

/*
 * Messages about wrong input are thrown in English, deep down where nobody knows who reads them. At the edge their parts are put into German by
 * form: an English wording with holes for what stands as it is, and the German one that takes those pieces over. A test looks up every wording
 * that the sources hold. Terms from memory, no source.
 */

/** The parts of a `UserError`. */
interface Fault {
  readonly what: string;
  readonly where?: string | undefined;
  readonly got?: string | undefined;
  readonly expected?: string | undefined;
}

/** What a UserError says, in a language. `more` are forms of those who throw what the engine does not. */
export function faultText(error: UserError, language: Language, more: Forms = []): string {
  return language === 'de' ? germanFault(error, more) : error.message;
}

export function germanFault({ what, where, got, expected }: Fault, more: Forms = []): string {
  const facts = [
    got === undefined ? '' : `vorgefunden: ${germanPart(got, more)}`,
    expected === undefined ? '' : `erwartet: ${germanPart(expected, more)}`,
  ].filter((fact) => fact !== '');
  const place = where === undefined ? '' : `${germanPlace(where)}: `;
  return `${place}${germanPart(what, more)}${facts.length === 0 ? '' : ` (${facts.join('; ')})`}`;
}

/** A message that has lost its parts on the way, as from another thread: they are found again by their marks. */
export function germanMessage(message: string, more: Forms = []): string {
  const [, said = message, inside] = /^(.*?) \(((?:got|expected) .*)\)$/.exec(message) ?? [];
  const got = inside === undefined ? undefined : /^got (.*?)(?:, expected .*)?$/.exec(inside)?.[1];
  const expected = inside === undefined ? undefined : /(?:^|, )expected (.*)$/.exec(inside)?.[1];
  if (byForm(said, more) !== null) return germanFault({ what: said, got, expected }, more);
  // of "a: b: c" the place is what comes before the first piece that has a form
  for (const colon of colonsOf(said)) {
    const what = said.slice(colon + 2);
    if (formed(what, more) !== null)
      return germanFault({ where: said.slice(0, colon), what, got, expected }, more);
  }
  return germanFault({ what: said, got, expected }, more);
}

/** One part in German; what has no form (a name, a number, a reader's own words) stays. */
export function germanPart(text: string, more: Forms = []): string {
  return formed(text, more) ?? text;
}

/** Null where no form fits. */
export function formed(text: string, more: Forms = []): string | null {
  const whole = byForm(text, more);
  if (whole !== null) return whole;
  const guessed = /^(.*); did you mean (.+)\?$/.exec(text);
  if (guessed !== null) return `${germanPart(guessed[1]!, more)}; gemeint war vielleicht ${guessed[2]}?`;
  const meant = /^did you mean (.+)\?$/.exec(text);
  if (meant !== null) return `gemeint war vielleicht ${meant[1]}?`;
  // "routes[0].legs[2].to: no such feature": a path, or a file, and what is wrong there
  for (const colon of colonsOf(text)) {
    const rest = byForm(text.slice(colon + 2), more);
    if (rest !== null) return `${germanPlace(text.slice(0, colon))}: ${rest}`;
  }
  if (/^[^\s,]+(, [^\s,]+)* (or|and) [^\s,]+$/.test(text))
    return text.replace(/ or (?=\S+$)/, ' oder ').replace(/ and (?=\S+$)/, ' und ');
  return null;
}

const PLACES: Readonly<Record<string, string>> = {
  line: 'Zeile',
  column: 'Spalte',
  feature: 'Objekt',
  element: 'Element',
  byte: 'Byte',
  route: 'Route',
  leg: 'Abschnitt',
};

/** "map.geojson, line 3", `route "x", leg 2`; what stands in quotes stays. */
export function germanPlace(where: string): string {
  return where.replace(/("[^"]*")|(^|, )([a-z]+) (?=["\d])/g, (all, quoted, before, word) =>
    quoted === undefined ? `${before}${PLACES[word] ?? word} ` : all,
  );
}

interface Holed {
  readonly english: RegExp;
  readonly german: string;
}

/** Forms without a hole by their text, the others by how much of them is fixed: the more a form says, the earlier it is tried. */
interface Table {
  readonly whole: ReadonlyMap<string, string>;
  readonly holed: readonly Holed[];
}

const TABLES = new Map<Forms, Table>();

function byForm(text: string, more: Forms): string | null {
  const { whole, holed } = tableOf(more);
  const same = whole.get(text);
  if (same !== undefined) return same;
  for (const { english, german } of holed) {
    const hit = english.exec(text);
    if (hit === null) continue;
    return german.replace(/\{(\d)(\*?)\}/g, (_, n, also) =>
      also === '*' ? germanPart(hit[Number(n)]!, more) : hit[Number(n)]!,
    );
  }
  return null;
}

function tableOf(more: Forms): Table {
  const kept = TABLES.get(more);
  if (kept !== undefined) return kept;
  const forms = [...OWN, ...more];
  const fixed = (english: string) => english.replaceAll(HOLES, '').length;
  const made = {
    whole: new Map(forms),
    holed: forms
      .filter(([english]) => english.search(HOLES) >= 0)
      .sort(([a], [b]) => fixed(b) - fixed(a))
      .map(([english, german]) => ({ english: patternOf(english), german })),
  };
  TABLES.set(more, made);
  return made;
}

const HOLES = /\{[#]?\}/g;

function patternOf(english: string): RegExp {
  const fixed = english.split(HOLES).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  const holes = (english.match(HOLES) ?? []).map((hole) => (hole === '{#}' ? '(-?[\\d.,]+)' : '(.*?)'));
  return new RegExp(`^${fixed.map((part, i) => `${part}${holes[i] ?? ''}`).join('')}$`);
}

function colonsOf(text: string): number[] {
  return [...text.matchAll(/: /g)].map((hit) => hit.index);
}

const OWN: Forms = [...DOCUMENTS, ...FILES, ...HEIGHTS, ...FEATURES, ...ROUTES];
