import { suggestion } from './did-you-mean.ts';
import { quoted } from './quoted.ts';
import { UserError } from './user-error.ts';

export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

export const UNITS = ['metric', 'imperial'] as const;
export const BEARINGS = ['degrees', 'mils'] as const;

/** How people read what is written for them. No figure of the model depends on it. */
export interface Reading {
  readonly language: Language;
  readonly units: (typeof UNITS)[number];
  readonly bearings: (typeof BEARINGS)[number];
}

/** What is written where nobody wishes otherwise. */
export const PLAIN_READING: Reading = { language: 'en', units: 'metric', bearings: 'degrees' };

export function isPlain({ language, units, bearings }: Reading): boolean {
  return language === 'en' && units === 'metric' && bearings === 'degrees';
}

/** One of the values that an option takes. Throws UserError, with the value that was most likely meant. */
export function choiceOf<T extends string>(where: string, given: string, known: readonly T[]): T {
  const value = known.find((k) => k === given);
  if (value !== undefined) return value;
  throw new UserError({
    what: `not as it should be${suggestion(given, known)}`,
    where,
    got: quoted(given),
    expected: known.join(' or '),
  });
}
