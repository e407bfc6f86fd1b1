import type { Language } from '../door/reading.ts';
import type { Technique } from '../route/leg.ts';
import type { Outcome, Reason } from './report.ts';

/** What happens in a single attempt, by the walker's own word for it; "leg" says only that one begins. */
export const EVENT_KINDS = [
  'start',
  'unsure',
  'confirmed',
  'took a lookalike',
  'wrong turn',
  'turns round',
  'searches',
  'gives up the search',
  'turns back',
  'on a known line',
  'takes a line for another',
  'looks round for the known point',
  'back at a known point',
  'sets off again',
  'found',
  'declared on the wrong thing',
] as const;
export type EventKind = (typeof EVENT_KINDS)[number];

/** Names of what attempts are counted and told by, once per language. */
export interface ToldWords {
  readonly outcomes: Readonly<Record<Outcome, string>>;
  readonly meanings: Readonly<Record<Outcome, string>>;
  readonly reasons: Readonly<Record<Reason, string>>;
  readonly techniques: Readonly<Record<Technique, string>>;
  readonly events: Readonly<Record<EventKind, string>>;
  /** A leg begins: where it leads. */
  readonly setsOff: (to: string) => string;
}

const ENGLISH: ToldWords = {
  outcomes: {
    cleanHit: 'found at once',
    foundBySearch: 'found by search',
    late: 'found too late',
    falseFind: 'false find',
    lost: 'lost',
    turnedBack: 'turned back',
    nearMiss: 'near miss',
  },
  meanings: {
    cleanHit: 'the target recognised without search, reversal or a second try, inside the limit',
    foundBySearch: 'recognised after a search, a reversal or a second try, inside the allowances',
    late: 'found, but past the allowance or the limit',
    falseFind: 'something else, or the wrong place, taken for the target',
    lost: 'far from where the party believed it was, and long',
    turnedBack: 'not found; back at a known point in time',
    nearMiss: 'came close and did not see it',
  },
  reasons: {
    ground: 'the map was not the ground',
    'party-day': 'habit of the day (compass, pace, speed)',
    leg: 'error of the leg (bearing, count, drift)',
    step: 'wander and obstacles',
    seeing: 'passed it unseen',
    several: 'several errors together',
  },
  techniques: {
    handrail: 'handrail',
    bearing: 'bearing',
    timing: 'timing',
    'aim-off': 'aim off',
    contour: 'contour',
    sight: 'by sight',
    box: 'boxing',
  },
  events: {
    start: 'stands at the start',
    unsure: 'does not find what should be here, is unsure',
    confirmed: 'recognises the end of the leg',
    'took a lookalike': 'takes something else for the end of the leg',
    'wrong turn': 'takes the wrong branch without noticing',
    'turns round': 'turns round on the line',
    searches: 'searches',
    'gives up the search': 'gives up the search',
    'turns back': 'turns back to the last known point',
    'on a known line': 'meets a line and knows it',
    'takes a line for another': 'meets a line and takes it for another',
    'looks round for the known point': 'looks round for the known point',
    'back at a known point': 'is back at a known point',
    'sets off again': 'sets off again',
    found: 'finds the target',
    'declared on the wrong thing': 'declares the wrong thing',
  },
  setsOff: (to) => `sets off for ${to}`,
};

// terms from memory, no source
const GERMAN: ToldWords = {
  outcomes: {
    cleanHit: 'sofort gefunden',
    foundBySearch: 'mit Suche gefunden',
    late: 'zu spät gefunden',
    falseFind: 'falscher Fund',
    lost: 'verirrt',
    turnedBack: 'umgekehrt',
    nearMiss: 'knapp verfehlt',
  },
  meanings: {
    cleanHit: 'das Ziel erkannt ohne Suche, Umkehr oder zweiten Anlauf, innerhalb der Zeit',
    foundBySearch: 'erkannt nach Suche, Umkehr oder zweitem Anlauf, innerhalb der Zeit',
    late: 'gefunden, aber nach Ablauf der Zeit',
    falseFind: 'etwas anderes oder die falsche Stelle für das Ziel gehalten',
    lost: 'weit von dem Ort, an dem die Gruppe zu sein glaubte, und lange',
    turnedBack: 'nicht gefunden; rechtzeitig zurück an einem bekannten Punkt',
    nearMiss: 'nahe herangekommen und es nicht gesehen',
  },
  reasons: {
    ground: 'das Gelände entsprach nicht der Karte',
    'party-day': 'Eigenheit des Tages (Kompass, Schrittmaß, Tempo)',
    leg: 'Fehler des Abschnitts (Marschzahl, Zählung, Abdrift)',
    step: 'Abweichen unterwegs und Hindernisse',
    seeing: 'ungesehen daran vorbei',
    several: 'mehrere Fehler zusammen',
  },
  techniques: {
    handrail: 'Leitlinie',
    bearing: 'Marschzahl',
    timing: 'nach der Uhr',
    'aim-off': 'versetzt',
    contour: 'höhengleich',
    sight: 'auf Sicht',
    box: 'Rechteck',
  },
  events: {
    start: 'steht am Start',
    unsure: 'findet nicht, was hier sein müsste, ist unsicher',
    confirmed: 'erkennt das Ende des Abschnitts',
    'took a lookalike': 'hält etwas anderes für das Ende des Abschnitts',
    'wrong turn': 'biegt falsch ab, ohne es zu merken',
    'turns round': 'kehrt auf der Linie um',
    searches: 'sucht',
    'gives up the search': 'gibt die Suche auf',
    'turns back': 'geht zurück zum letzten bekannten Punkt',
    'on a known line': 'trifft auf eine Linie und erkennt sie',
    'takes a line for another': 'trifft auf eine Linie und hält sie für eine andere',
    'looks round for the known point': 'sieht sich nach dem bekannten Punkt um',
    'back at a known point': 'ist zurück an einem bekannten Punkt',
    'sets off again': 'bricht erneut auf',
    found: 'findet das Ziel',
    'declared on the wrong thing': 'hält das Falsche für das Ziel',
  },
  setsOff: (to) => `bricht auf: ${to}`,
};

export const TOLD_WORDS: Readonly<Record<Language, ToldWords>> = { en: ENGLISH, de: GERMAN };

/** An event in words; `ends` are where the legs lead, `leg` counts from 0. */
export function eventText(kind: string, leg: number, ends: readonly string[], words: ToldWords): string {
  const to = ends[leg];
  if (kind === 'leg' && to !== undefined) return words.setsOff(to);
  return words.events[kind as EventKind] ?? kind;
}
