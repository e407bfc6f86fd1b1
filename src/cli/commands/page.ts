import type { Command } from 'commander';
import type { Terminal } from '../node/terminal.ts';
import { addShared, type SharedOptions } from '../options.ts';

export function addPage(program: Command, terminal: Terminal): void {
  const command = program
    .command('page')
    .description('say where the planning page is, or copy it')
    .option('--out <file>', 'copy the page to this file');
  addShared(command, ['language']).action(async (options: SharedOptions) => {
    const { runPage } = await import('../run-page.ts');
    runPage(options, terminal);
  });
}
