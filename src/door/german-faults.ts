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
  return germanFault({ what: said, got, expected }, more);
}

/** One part in German; what has no form (a name, a number, a reader's own words) stays. */
function germanPart(text: string, more: Forms, depth = 0): string {
  return formed(text, more, depth) ?? text;
}

/** Pieces of pieces are put into German no deeper than this, and no more colons than these are looked behind: a message may quote a hostile file. */
const DEEPEST = 2;
const MOST_COLONS = 5;

/** Null where no form fits. */
export function formed(text: string, more: Forms = [], depth = 0): string | null {
  const guessed = /^(.*); did you mean (.+)\?$/.exec(text);
  if (guessed !== null && depth < DEEPEST)
    return `${germanPart(guessed[1]!, more, depth + 1)}; gemeint war vielleicht ${guessed[2]}?`;
  const meant = /^did you mean (.+)\?$/.exec(text);
  if (meant !== null) return `gemeint war vielleicht ${meant[1]}?`;
  const best = closest(text, more, depth);
  if (best !== null) return best.before === '' ? best.german : `${germanPlace(best.before)}: ${best.german}`;
  if (/^[^\s,]+(, [^\s,]+)* (or|and) [^\s,]+$/.test(text))
    return text.replace(/ or (?=\S+$)/, ' oder ').replace(/ and (?=\S+$)/, ' und ');
  return null;
}

/**
 * The form that says most of a text, or of what follows a colon in it: "routes[0].legs[2].to: no such feature" is a path and what is wrong there,
 * while "the GeoTIFF is damaged: it holds no image" is one form.
 */
function closest(text: string, more: Forms, depth: number): (Formed & { readonly before: string }) | null {
  let best: (Formed & { readonly before: string }) | null = null;
  for (const [before, rest] of [['', text] as const, ...splits(text)]) {
    const found = byForm(rest, more, depth);
    if (found !== null && (best === null || found.fixed > best.fixed)) best = { ...found, before };
  }
  return best;
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

interface Formed {
  readonly german: string;
  /** Characters of the English that the form itself, and those of its pieces, have. */
  readonly fixed: number;
}

interface Holed extends Formed {
  readonly english: RegExp;
}

/** Forms without a hole by their text, and the others. */
interface Table {
  readonly whole: ReadonlyMap<string, string>;
  readonly holed: readonly Holed[];
}

const TABLES = new Map<Forms, Table>();

function byForm(text: string, more: Forms, depth: number): Formed | null {
  const { whole, holed } = tableOf(more);
  const same = whole.get(text);
  if (same !== undefined) return { german: same, fixed: text.length };
  let best: Formed | null = null;
  for (const { english, german, fixed } of holed) {
    const hit = english.exec(text);
    if (hit === null) continue;
    let said = fixed;
    const put = (_: string, n: string, also: string) => {
      const piece = hit[Number(n)]!;
      if (also === '' || depth === DEEPEST) return piece;
      said += closest(piece, more, depth + 1)?.fixed ?? 0;
      return germanPart(piece, more, depth + 1);
    };
    const found = german.replace(/\{(\d)(\*?)\}/g, put);
    if (best === null || said > best.fixed) best = { german: found, fixed: said };
  }
  return best;
}

function tableOf(more: Forms): Table {
  const kept = TABLES.get(more);
  if (kept !== undefined) return kept;
  const forms = [...OWN, ...more];
  const made = {
    whole: new Map(forms),
    holed: forms
      .filter(([english]) => english.search(HOLES) >= 0)
      .map(([english, german]) => ({
        english: patternOf(english),
        german,
        fixed: english.replaceAll(HOLES, '').length,
      })),
  };
  TABLES.set(more, made);
  return made;
}

const HOLES = /\{[#]?\}/g;

function patternOf(english: string): RegExp {
  const fixed = english.split(HOLES).map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'));
  const holes = (english.match(HOLES) ?? []).map((hole) => (hole === '{#}' ? '([-−]?[\\d.,e+-]+)' : '(.*?)'));
  return new RegExp(`^${fixed.map((part, i) => `${part}${holes[i] ?? ''}`).join('')}$`);
}

function splits(text: string): [before: string, rest: string][] {
  return [...text.matchAll(/: /g)]
    .slice(0, MOST_COLONS)
    .map(({ index }) => [text.slice(0, index), text.slice(index + 2)]);
}

const OWN: Forms = [...DOCUMENTS, ...FILES, ...HEIGHTS, ...FEATURES, ...ROUTES];
