import type { Called } from './feature.ts';
import { GERMAN_NOUNS, type Gender, labelOf, type Noun } from './german-kinds.ts';

export type Case = 'nominative' | 'accusative' | 'dative';

/** What the program itself calls places where lines meet or end (`named-places.ts`), in German. */
const MADE: Readonly<Record<string, Noun>> = {
  confluence: GERMAN_NOUNS.confluence,
  junction: GERMAN_NOUNS.junction,
  fork: { gender: 'f', noun: 'Gabelung', plural: 'Gabelungen' },
  crossing: GERMAN_NOUNS.crossing,
  corner: { gender: 'f', noun: 'Ecke', plural: 'Ecken' },
  end: { gender: 'n', noun: 'Ende', plural: 'Enden' },
  head: { gender: 'm', noun: 'Ursprung', plural: 'Ursprünge' },
  inlet: { gender: 'm', noun: 'Zufluss', plural: 'Zuflüsse' },
  outlet: { gender: 'm', noun: 'Abfluss', plural: 'Abflüsse' },
  mouth: { gender: 'f', noun: 'Mündung', plural: 'Mündungen' },
  edge: { gender: 'm', noun: 'Rand', plural: 'Ränder' },
};
const MADE_KINDS: ReadonlySet<string> = new Set([
  'confluence',
  'junction',
  'crossing',
  'wall-corner',
  'fence-corner',
  'stream-end',
  'line-end',
  'marsh-edge',
  'forest-edge',
]);

type Wording = { readonly proper: string } | { readonly noun: Noun; readonly tail: string };

/** A name that somebody gave stays; one that the program gave, and a mere kind, become German nouns. */
function wordingOf({ name, kind }: Called): Wording {
  if (name === undefined) return { noun: GERMAN_NOUNS[kind], tail: '' };
  const hit = MADE_KINDS.has(kind) ? /^([a-z]+) (of|on) (.+)$/.exec(name) : null;
  const noun = hit === null ? undefined : MADE[hit[1]!];
  if (hit === null || noun === undefined) return { proper: name };
  const lines = hit[3]!.replaceAll(' and ', ' und ');
  return { noun, tail: ` ${hit[2] === 'on' ? 'an' : 'von'} ${lines}` };
}

/** A name inside a text, whose kind nobody tells: what the program alone would say so is German, any other stays. */
export function germanGiven(name: string): string {
  const made = MADE[/^([a-z]+) (?:of|on) ./.exec(name)?.[1] ?? ''];
  return made === undefined ? name : germanLabel({ id: '', name, kind: 'confluence' });
}

/** By itself, as a label or a heading: "Felsblock", "Ende von Oskle Sike", or its name. */
export function germanLabel(feature: Called): string {
  const called = wordingOf(feature);
  return 'proper' in called ? called.proper : `${labelOf(called.noun)}${called.tail}`;
}

/** Inside a sentence: "der Felsblock", "dem kleinen Bach", or its name without an article. */
export function germanName(feature: Called, wanted: Case): string {
  const called = wordingOf(feature);
  if ('proper' in called) return called.proper;
  return `${ARTICLES[wanted][called.noun.gender]} ${declined(called.noun, wanted)}${called.tail}`;
}

/** With a preposition of the dative that joins its article: `zu` → "zum Felsblock", `an` → "am kleinen Bach". */
export function germanAt(preposition: 'zu' | 'an' | 'von', feature: Called): string {
  const called = wordingOf(feature);
  if ('proper' in called) return `${preposition} ${called.proper}`;
  return `${JOINED[preposition][called.noun.gender]} ${declined(called.noun, 'dative')}${called.tail}`;
}

/** True for what has a name of its own. */
export function isProper(feature: Called): boolean {
  return 'proper' in wordingOf(feature);
}

const ARTICLES: Readonly<Record<Case, Readonly<Record<Gender, string>>>> = {
  nominative: { m: 'der', f: 'die', n: 'das', p: 'die' },
  accusative: { m: 'den', f: 'die', n: 'das', p: 'die' },
  dative: { m: 'dem', f: 'der', n: 'dem', p: 'den' },
};
const JOINED: Readonly<Record<'zu' | 'an' | 'von', Readonly<Record<Gender, string>>>> = {
  zu: { m: 'zum', f: 'zur', n: 'zum', p: 'zu den' },
  an: { m: 'am', f: 'an der', n: 'am', p: 'an den' },
  von: { m: 'vom', f: 'von der', n: 'vom', p: 'von den' },
};

/** After a definite article; nouns of the weak declension take their ending. */
function declined({ gender, noun, adjective }: Noun, wanted: Case): string {
  const ending =
    gender === 'p'
      ? 'en'
      : wanted === 'nominative' || (wanted === 'accusative' && gender !== 'm')
        ? 'e'
        : 'en';
  const plural = gender === 'p' && wanted === 'dative' && !noun.endsWith('n') ? 'n' : '';
  return `${adjective === undefined ? '' : `${adjective}${ending} `}${noun}${plural}`;
}
