import { type Command, Option } from 'commander';
import { quoted } from '../door/quoted.ts';
import {
  BEARINGS,
  choiceOf,
  LANGUAGES,
  type Language,
  PLAIN_READING,
  type Reading,
  UNITS,
} from '../door/reading.ts';
import { UserError } from '../door/user-error.ts';
import type { HelpWords } from './help-words.ts';

/** What the options that commands share give, each only where it was said. */
export interface SharedOptions {
  readonly out?: string;
  readonly trials?: number;
  readonly seed?: number;
  readonly workers?: number;
  readonly json?: boolean;
  readonly trial?: number;
  readonly language?: Reading['language'];
  readonly units?: Reading['units'];
  readonly bearings?: Reading['bearings'];
}

/** The language that the words of a command line ask for, before they are read: help and faults are said in it too. */
export function languageWanted(words: readonly string[]): Language {
  const at = words.findLastIndex((word) => word.startsWith('--language'));
  const value = words[at] === '--language' ? words[at + 1] : words[at]?.slice('--language='.length);
  return value === 'de' ? 'de' : PLAIN_READING.language;
}

/** How the one who asks wants to read the answer. */
export function readingOf({ language, units, bearings }: SharedOptions): Reading {
  return {
    language: language ?? PLAIN_READING.language,
    units: units ?? PLAIN_READING.units,
    bearings: bearings ?? PLAIN_READING.bearings,
  };
}

type SharedName = keyof HelpWords['shared'];

const SHARED: Readonly<Record<SharedName, (about: string) => Option>> = {
  out: (about) => new Option('--out <folder>', about),
  trials: (about) => whole('--trials <n>', about, 1, 10_000_000),
  seed: (about) => whole('--seed <n>', about, 0, 4_294_967_295),
  workers: (about) => whole('--workers <n>', about, 1, 64),
  trial: (about) => whole('--trial <n>', about, 0, 9_999_999),
  language: (about) => choice('--language <code>', about, LANGUAGES),
  units: (about) => choice('--units <name>', about, UNITS),
  bearings: (about) => choice('--bearings <name>', about, BEARINGS),
  json: (about) => new Option('--json', about),
};

export function addShared(command: Command, names: readonly SharedName[], say: HelpWords): Command {
  for (const name of names) command.addOption(SHARED[name](say.shared[name]));
  return command;
}

function choice(flags: string, about: string, known: readonly string[]): Option {
  return new Option(flags, about).argParser((text) => choiceOf(flags.split(' ')[0]!, text, known));
}

function whole(flags: string, about: string, min: number, max: number): Option {
  return new Option(flags, about).argParser((text) => {
    const value = Number(text);
    if (/^\d+$/.test(text) && value >= min && value <= max) return value;
    throw new UserError({
      what: 'not as it should be',
      where: flags.split(' ')[0]!,
      got: quoted(text),
      expected: `a whole number from ${min} to ${max}`,
    });
  });
}
