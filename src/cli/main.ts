import { Command } from 'commander';
import { addCheck } from './commands/check.ts';
import { addCompare } from './commands/compare.ts';
import { addPage } from './commands/page.ts';
import { addPrepare } from './commands/prepare.ts';
import { addSchema } from './commands/schema.ts';
import { exitCodeOf } from './exit.ts';
import { HELP_WORDS } from './help-words.ts';
import { processTerminal, type Terminal } from './node/terminal.ts';
import { addShared, languageWanted, type SharedOptions } from './options.ts';
import { VERSION } from './version.ts';

async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  const language = languageWanted(words);
  const say = HELP_WORDS[language];
  const program = new Command('mistwise')
    .description(say.program)
    .version(VERSION, '-V, --version', say.version)
    .helpOption('-h, --help', say.help)
    .helpCommand(...say.helpCommand)
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .exitOverride();
  if (language === 'de') {
    const { speakGerman } = await import('./german-usage.ts');
    speakGerman(program, terminal.err);
  }
  addShared(program, ['language'], say);
  // the language may be said before the command or after it
  program.hook('preAction', (all, command) => {
    const { language: wanted } = all.opts<SharedOptions>();
    if (wanted !== undefined) command.setOptionValue('language', wanted);
  });
  addCompare(program, terminal, say);
  addPrepare(program, terminal, say);
  addCheck(program, terminal, say);
  addSchema(program, terminal, say);
  addPage(program, terminal, say);
  for (const command of program.commands) command.copyInheritedSettings(program);
  try {
    await program.parseAsync(words, { from: 'user' });
    return 0;
  } catch (error) {
    return exitCodeOf(error, terminal, language);
  }
}

process.exitCode = await run(process.argv.slice(2), processTerminal());
