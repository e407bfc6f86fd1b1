import { type Command, Option } from 'commander';
import { quoted } from '../door/quoted.ts';
import { UserError } from '../door/user-error.ts';

/** What the options that commands share give, each only where it was said. */
export interface SharedOptions {
  readonly out?: string;
  readonly trials?: number;
  readonly seed?: number;
  readonly workers?: number;
  readonly json?: boolean;
  readonly trial?: number;
}

const SHARED = {
  out: () => new Option('--out <folder>', 'where the report goes'),
  trials: () =>
    whole('--trials <n>', 'attempts per route, in place of the number in the task', 1, 10_000_000),
  seed: () => whole('--seed <n>', 'seed of chance, in place of the one in the task', 0, 4_294_967_295),
  workers: () => whole('--workers <n>', 'how many workers calculate; the result is the same for any', 1, 64),
  trial: () =>
    whole('--trial <n>', 'tell this one attempt on every route, leg by leg, and write nothing', 0, 9_999_999),
  json: () => new Option('--json', 'print the result as JSON'),
} as const;

export function addShared(command: Command, names: readonly (keyof typeof SHARED)[]): Command {
  for (const name of names) command.addOption(SHARED[name]());
  return command;
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
