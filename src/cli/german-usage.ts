import { type Command, Help } from 'commander';
import type { Forms } from '../door/german/form.ts';
import { formed } from '../door/german-faults.ts';

/*
 * What the reader of the command line says by itself (headings of the help, options that nobody knows), in German. Forms as in
 * `door/german-faults.ts`; terms from memory, no source.
 */

const USAGE: Forms = [
  ["error: missing required argument '{}'", 'Fehler: das Argument „{1*}“ fehlt'],
  ["error: option '{}' argument missing", 'Fehler: der Option „{1*}“ fehlt ihr Wert'],
  ["error: required option '{}' not specified", 'Fehler: die Option „{1*}“ muss angegeben werden'],
  ["error: unknown option '{}'", 'Fehler: die Option „{1}“ ist nicht bekannt'],
  ["error: unknown command '{}'", 'Fehler: den Befehl „{1}“ gibt es nicht'],
  [
    "error: too many arguments for '{}'. Expected {} argument but got {}.",
    'Fehler: zu viele Argumente für „{1}“: erwartet {2}, angegeben {3}.',
  ],
  [
    "error: too many arguments for '{}'. Expected {} arguments but got {}.",
    'Fehler: zu viele Argumente für „{1}“: erwartet {2}, angegeben {3}.',
  ],
  ['(Did you mean {}?)', '(Gemeint war vielleicht {1}?)'],
  ['(Did you mean one of {}?)', '(Gemeint war vielleicht eines von {1}?)'],
  ['--out <folder>', '--out <Ordner>'],
  ['files', 'Dateien'],
  ['task', 'Aufgabe'],
  ['path', 'Pfad'],
];

/** A message of the reader of the command line, line by line. */
export function germanUsage(text: string): string {
  return text
    .split('\n')
    .map((line) => formed(line, USAGE) ?? line)
    .join('\n');
}

const TITLES: Readonly<Record<string, string>> = {
  'Usage:': 'Aufruf:',
  'Arguments:': 'Argumente:',
  'Options:': 'Optionen:',
  'Commands:': 'Befehle:',
};

const TERMS: Readonly<Record<string, string>> = {
  '[options]': '[Optionen]',
  '[command]': '[Befehl]',
  '<task>': '<Aufgabe>',
  '<path>': '<Pfad>',
  '<files...>': '<Dateien...>',
  '<files>': '<Dateien>',
  '<folder>': '<Ordner>',
  '<file>': '<Datei>',
  '<code>': '<Kürzel>',
  '<name>': '<Name>',
  '<track>': '<Track>',
  '<metres>': '<Meter>',
  '<date>': '<Datum>',
  '<text>': '<Text>',
};

function terms(text: string): string {
  return text.replace(/[[<][\w.]+[\]>]/g, (term) => TERMS[term] ?? term);
}

/** Has a command say its help in German, and its errors. */
export function speakGerman(command: Command, writeErr: (text: string) => void): Command {
  const plain = new Help();
  return command.configureOutput({ outputError: (text) => writeErr(germanUsage(text)) }).configureHelp({
    styleTitle: (title) => TITLES[title] ?? title,
    commandUsage: (of) => terms(plain.commandUsage(of)),
    subcommandTerm: (of) => terms(plain.subcommandTerm(of)),
    optionTerm: (option) => terms(plain.optionTerm(option)),
    argumentTerm: (argument) => terms(`<${plain.argumentTerm(argument)}>`).slice(1, -1),
    optionDescription: (option) => plain.optionDescription(option).replace('(default: ', '(Vorgabe: '),
  });
}
