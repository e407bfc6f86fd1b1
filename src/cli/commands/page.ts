import type { Command } from 'commander';
import type { HelpWords } from '../help-words.ts';
import type { Terminal } from '../node/terminal.ts';
import { addShared, type SharedOptions } from '../options.ts';

export function addPage(program: Command, terminal: Terminal, say: HelpWords): void {
  const command = program.command('page').description(say.page.about).option('--out <file>', say.page.out);
  addShared(command, ['language'], say).action(async (options: SharedOptions) => {
    const { runPage } = await import('../run-page.ts');
    runPage(options, terminal);
  });
}
