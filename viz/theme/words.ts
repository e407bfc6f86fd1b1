import type { FeatureKind } from '../../src/features/kinds.ts';

/* Figures and kinds in English; those of German stand beside its words. */

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

/** 134 → "134 min", 190 → "3 h 10". */
export function duration(minutes: number): string {
  const m = Math.round(minutes);
  return m < 180 ? `${m} min` : `${Math.floor(m / 60)} h ${String(m % 60).padStart(2, '0')}`;
}

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
