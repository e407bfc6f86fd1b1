import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import type { Doubt } from './feature.ts';
import { shown } from './plain-text.ts';

interface Bounds {
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

const SHARE: Bounds = { low: 0, high: 1, words: 'a number from 0 to 1' };
const RANGE: Bounds = { low: 0.1, high: 50_000, words: 'metres from 0.1 to 50000' };

const NUMBERS = {
  exists: SHARE,
  positionMetres: { low: 0, high: 5000, words: 'metres from 0 to 5000' },
  rangeMetres: RANGE,
  sweepWidthMetres: RANGE,
  contrast: { low: 0.01, high: 1, words: 'a number from 0.01 to 1' },
  alike: SHARE,
  extraPerGap: SHARE,
} as const satisfies Partial<Record<keyof Doubt, Bounds>>;

const VISIBILITIES = ['high', 'medium', 'low'] as const;
const HEADS = ['spring-fed', 'saturation'] as const;

/** Every name under which a feature may state its doubt. */
export const DOUBT_NAMES = [...Object.keys(NUMBERS), 'visibility', 'lastSeen', 'head'] as const;

/** What a file's properties say of doubt, checked. Null and absent say nothing. One UserError about the first wrong value. */
export function givenDoubt(properties: Readonly<Record<string, unknown>>, where: string): Partial<Doubt> {
  const given: Record<string, unknown> = {};
  const wrong = (name: string, expected: string, hint = '') =>
    new UserError({
      what: `${name} of a feature is wrong`,
      where,
      got: `${shown(properties[name])}${hint}`,
      expected,
    });
  const said = (name: string) => properties[name] !== undefined && properties[name] !== null;

  for (const [name, { low, high, words }] of Object.entries(NUMBERS)) {
    if (!said(name)) continue;
    const value = properties[name];
    if (typeof value !== 'number' || !(value >= low && value <= high)) throw wrong(name, words);
    given[name] = value;
  }
  for (const [name, choices] of [
    ['visibility', VISIBILITIES],
    ['head', HEADS],
  ] as const) {
    if (!said(name)) continue;
    const value = properties[name];
    if (!choices.includes(value as never)) {
      const hint = typeof value === 'string' ? suggestion(value, choices) : '';
      throw wrong(name, choices.join(' or '), hint);
    }
    given[name] = value;
  }
  if (said('lastSeen')) {
    const value = properties.lastSeen;
    if (!isIsoDate(value)) throw wrong('lastSeen', 'a date such as 2024-06-30, 2024-06 or 2024');
    given.lastSeen = value;
  }
  return given as Partial<Doubt>;
}

/** A year, month or day that is on the calendar, written as ISO 8601 does. */
export function isIsoDate(value: unknown): value is string {
  if (typeof value !== 'string' || !/^\d{4}(-\d{2}(-\d{2})?)?$/.test(value)) return false;
  const time = Date.parse(value);
  // 30 February reads as 1 March
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(value);
}
