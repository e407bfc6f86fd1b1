import type { Command } from 'commander';
import { jsonSchemaOf } from '../../door/json-schema.ts';
import { TASK_SHAPE } from '../../study/schema.ts';
import type { Terminal } from '../node/terminal.ts';

export function addSchema(program: Command, terminal: Terminal): void {
  program
    .command('schema')
    .description('print the JSON Schema of the task file')
    .action(() => {
      terminal.out(`${JSON.stringify(jsonSchemaOf(TASK_SHAPE, 'mistwise task'), null, 2)}\n`);
    });
}
