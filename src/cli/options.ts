import { type Command, Option } from 'commander';
import { quoted } from '../door/quoted.ts';
import { BEARINGS, choiceOf, LANGUAGES, PLAIN_READING, type Reading, UNITS } from '../door/reading.ts';
import { UserError } from '../door/user-error.ts';

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

/** How the one who asks wants to read the answer. */
export function readingOf({ language, units, bearings }: SharedOptions): Reading {
  return {
    language: language ?? PLAIN_READING.language,
    units: units ?? PLAIN_READING.units,
    bearings: bearings ?? PLAIN_READING.bearings,
  };
}

const SHARED = {
  out: () => new Option('--out <folder>', 'where the report goes'),
  trials: () =>
    whole('--trials <n>', 'attempts per route, in place of the number in the task', 1, 10_000_000),
  seed: () => whole('--seed <n>', 'seed of chance, in place of the one in the task', 0, 4_294_967_295),
  workers: () => whole('--workers <n>', 'how many workers calculate; the result is the same for any', 1, 64),
  trial: () =>
    whole('--trial <n>', 'tell this one attempt on every route, leg by leg, and write nothing', 0, 9_999_999),
  language: () => choice('--language <code>', 'language of what is written: en or de', LANGUAGES),
  units: () => choice('--units <name>', 'units of what is written: metric or imperial', UNITS),
  bearings: () => choice('--bearings <name>', 'bearings in degrees or in mils, 6400 to the circle', BEARINGS),
  json: () => new Option('--json', 'print the result as JSON'),
} as const;

export function addShared(command: Command, names: readonly (keyof typeof SHARED)[]): Command {
  for (const name of names) command.addOption(SHARED[name]());
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
