import type { Outcome } from '../report/report.ts';

/** The ends of an attempt as a person says them. */
export const NAMES: Readonly<Record<Outcome, string>> = {
  cleanHit: 'found at once',
  foundBySearch: 'found by search',
  late: 'found too late',
  falseFind: 'declared on the wrong thing',
  lost: 'lost',
  turnedBack: 'turned back',
  nearMiss: 'came near and missed it',
};
