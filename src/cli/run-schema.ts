import { jsonSchemaOf } from '../door/json-schema.ts';
import { TASK_SHAPE } from '../study/schema.ts';
import type { Terminal } from './node/terminal.ts';

/** `mistwise schema`. */
export function runSchema(terminal: Terminal): void {
  terminal.out(`${JSON.stringify(jsonSchemaOf(TASK_SHAPE, 'mistwise task'), null, 2)}\n`);
}
