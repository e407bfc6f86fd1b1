import type { FeatureKind } from '../../src/features/kinds.ts';
import type { Outcome, Reason } from '../../src/report/report.ts';
import type { Technique } from '../../src/route/leg.ts';

/** Every word that a drawing or the report adds to what the report document says. One object per language. */

const NARROW = '\u202f';

/** 12345 → "12 345". */
export function thousands(n: number): string {
  const digits = String(Math.round(Math.abs(n)));
  const grouped = digits.replace(/\B(?=(\d{3})+$)/g, NARROW);
  return n < 0 && grouped !== '0' ? `−${grouped}` : grouped;
}

/** A share as a whole number of 100; never 0 or 100 unless it is. */
export function hundredth(share: number): number {
  const n = Math.round(share * 100);
  if (n === 0 && share > 0) return 1;
  return n === 100 && share < 1 ? 99 : n;
}

/** A share in words: "83 of 100", "under 1 of 100". */
export function ofHundred(share: number): string {
  if (share > 0 && share < 0.005) return 'under 1 of 100';
  if (share < 1 && share > 0.995) return 'over 99 of 100';
  return `${Math.round(share * 100)} of 100`;
}

/** A share as it stands in a narrow table column headed "of 100". */
export function hundredText(share: number): string {
  if (share > 0 && share < 0.005) return '<1';
  if (share < 1 && share > 0.995) return '>99';
  return String(Math.round(share * 100));
}

export function kilometres(metres: number): string {
  return metres < 995 ? `${Math.round(metres)} m` : `${(metres / 1000).toFixed(metres < 9950 ? 2 : 1)} km`;
}

export function bearing(degrees: number): string {
  return `${String(Math.round(degrees) % 360).padStart(3, '0')}°`;
}

/** 134 → "134 min", 190 → "3 h 10". */
export function duration(minutes: number): string {
  const m = Math.round(minutes);
  return m < 180 ? `${m} min` : `${Math.floor(m / 60)} h ${String(m % 60).padStart(2, '0')}`;
}

export const OUTCOME_NAMES: Readonly<Record<Outcome, string>> = {
  cleanHit: 'found at once',
  foundBySearch: 'found by search',
  late: 'found too late',
  falseFind: 'false find',
  lost: 'lost',
  turnedBack: 'turned back',
  nearMiss: 'near miss',
};

export const OUTCOME_MEANINGS: Readonly<Record<Outcome, string>> = {
  cleanHit: 'the target recognised without search, reversal or a second try, inside the limit',
  foundBySearch: 'recognised after a search, a reversal or a second try, inside the allowances',
  late: 'found, but past the allowance or the limit',
  falseFind: 'something else, or the wrong place, taken for the target',
  lost: 'far from where the party believed it was, and long',
  turnedBack: 'not found; back at a known point in time',
  nearMiss: 'came close and did not see it',
};

export const REASON_NAMES: Readonly<Record<Reason, string>> = {
  ground: 'the map was not the ground',
  'party-day': 'habit of the day (compass, pace, speed)',
  leg: 'error of the leg (bearing, count, drift)',
  step: 'wander and obstacles',
  seeing: 'passed it unseen',
  several: 'several errors together',
};

export const TECHNIQUE_NAMES: Readonly<Record<Technique, string>> = {
  handrail: 'handrail',
  bearing: 'bearing',
  timing: 'timing',
  'aim-off': 'aim off',
  contour: 'contour',
  sight: 'by sight',
  box: 'boxing',
};

const PLURALS: Readonly<Partial<Record<FeatureKind, string>>> = {
  cliff: 'cliffs',
  crag: 'crags',
  scree: 'scree',
  'steep-ground': 'steep ground',
  'out-of-bounds': 'out-of-bounds areas',
  marsh: 'marsh',
  forest: 'woods',
  lake: 'lakes',
  'small-stream': 'small streams',
  're-entrant': 're-entrants',
  'boulder-field': 'boulder fields',
  heather: 'heather',
  grass: 'grass',
  tussock: 'tussock',
  hag: 'peat hags',
  fence: 'fences',
  'stream-end': 'stream ends',
};

export function kindName(kind: FeatureKind): string {
  return kind === 're-entrant' ? kind : kind.replaceAll('-', ' ');
}

export function kindPlural(kind: FeatureKind): string {
  return PLURALS[kind] ?? `${kindName(kind)}s`;
}

/** "cliffs, crags and scree". */
export function listed(names: readonly string[]): string {
  return names.length < 2
    ? (names[0] ?? '')
    : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** What happens in a single attempt, as a reader is told it. */
export const EVENT_WORDS: Readonly<Record<string, string>> = {
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
};
