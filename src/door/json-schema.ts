import { toJsonSchema } from '@valibot/to-json-schema';
import type { Shape } from './shapes.ts';

/** The JSON Schema of a shape. Checks that JSON Schema cannot say (a date that exists) are left out. */
export function jsonSchemaOf(shape: Shape, title: string): object {
  return { ...toJsonSchema(shape as never, { errorMode: 'ignore' }), title };
}
