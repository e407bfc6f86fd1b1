import { CommanderError } from 'commander';
import type { Language } from '../door/reading.ts';
import { UserError } from '../door/user-error.ts';
import type { Terminal } from './node/terminal.ts';
import { CLI_WORDS } from './words.ts';

const DONE = 0;
const OUR_FAULT = 1;
const WRONG_INPUT = 2;

/** Says what went wrong, in one message, and gives the exit code. The only place that decides on one. */
export async function exitCodeOf(error: unknown, terminal: Terminal, language: Language): Promise<number> {
  if (error instanceof CommanderError) {
    // Help and version arrive here too; commander has printed its message already.
    return error.exitCode === 0 ? DONE : WRONG_INPUT;
  }
  if (error instanceof UserError) {
    terminal.err(`${printable(await saidIn(language, error))}\n`);
    return WRONG_INPUT;
  }
  const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
  terminal.err(`${CLI_WORDS[language].ours}\n${told}\n`);
  return OUR_FAULT;
}

async function saidIn(language: Language, error: UserError): Promise<string> {
  if (language === 'en') return error.message;
  // many forms, read only where they are wanted
  const { faultText } = await import('../door/german-faults.ts');
  return faultText(error, language);
}

/** A name in a file must not steer the terminal. */
function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  return text.replace(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g, '?');
}
