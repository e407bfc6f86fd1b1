import { Command } from 'commander';
import { addCheck } from './commands/check.ts';
import { addCompare } from './commands/compare.ts';
import { addPage } from './commands/page.ts';
import { addPrepare } from './commands/prepare.ts';
import { addSchema } from './commands/schema.ts';
import { exitCodeOf } from './exit.ts';
import { processTerminal, type Terminal } from './node/terminal.ts';
import { VERSION } from './version.ts';

async function run(words: readonly string[], terminal: Terminal): Promise<number> {
  const program = new Command('mistwise')
    .description('How likely each route on foot is to find a small target, and how long it takes.')
    .version(VERSION)
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.err })
    .exitOverride();
  addCompare(program, terminal);
  addPrepare(program, terminal);
  addCheck(program, terminal);
  addSchema(program, terminal);
  addPage(program, terminal);
  for (const command of program.commands) command.copyInheritedSettings(program);
  try {
    await program.parseAsync(words, { from: 'user' });
    return 0;
  } catch (error) {
    return exitCodeOf(error, terminal);
  }
}

process.exitCode = await run(process.argv.slice(2), processTerminal());
