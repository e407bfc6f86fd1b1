import type { Command } from 'commander';
import type { Terminal } from '../node/terminal.ts';

export function addSchema(program: Command, terminal: Terminal): void {
  program
    .command('schema')
    .description('print the JSON Schema of the task file')
    .action(async () => {
      const { runSchema } = await import('../run-schema.ts');
      runSchema(terminal);
    });
}
