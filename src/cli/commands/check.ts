import type { Command } from 'commander';
import type { HelpWords } from '../help-words.ts';
import type { Terminal } from '../node/terminal.ts';
import { addShared, type SharedOptions } from '../options.ts';

export function addCheck(program: Command, terminal: Terminal, say: HelpWords): void {
  const command = program
    .command('check')
    .description(say.check.about)
    .argument('<path>', say.check.path)
    .option('--json', say.check.json);
  addShared(command, ['language'], say).action(async (path: string, options: SharedOptions) => {
    const { runCheck } = await import('../run-check.ts');
    await runCheck(path, options, terminal);
  });
}
