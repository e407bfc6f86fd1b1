import type { Command } from 'commander';
import type { HelpWords } from '../help-words.ts';
import type { Terminal } from '../node/terminal.ts';

export function addSchema(program: Command, terminal: Terminal, say: HelpWords): void {
  program
    .command('schema')
    .description(say.schema)
    .action(async () => {
      const { runSchema } = await import('../run-schema.ts');
      runSchema(terminal);
    });
}
