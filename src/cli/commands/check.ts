import type { Command } from 'commander';
import type { Terminal } from '../node/terminal.ts';
import { addShared, type SharedOptions } from '../options.ts';

export function addCheck(program: Command, terminal: Terminal): void {
  const command = program
    .command('check')
    .description('say what is wrong, doubtful or lacking in a terrain folder or a task')
    .argument('<path>', 'terrain folder or task file')
    .option('--json', 'print the findings as JSON');
  addShared(command, ['language']).action(async (path: string, options: SharedOptions) => {
    const { runCheck } = await import('../run-check.ts');
    await runCheck(path, options, terminal);
  });
}
