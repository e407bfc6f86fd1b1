import { readFileSync } from 'node:fs';
import { expect } from 'vitest';

/** One row of a table under tests/fixtures/published: a value of a source outside this project. */
export interface Check {
  readonly id: string;
  readonly source: string;
  // biome-ignore lint/suspicious/noExplicitAny: rows of one table differ in shape
  readonly inputs: any;
  // biome-ignore lint/suspicious/noExplicitAny: rows of one table differ in shape
  readonly expected: any;
  // biome-ignore lint/suspicious/noExplicitAny: a number, or one per unit
  readonly tolerance: any;
  readonly note: string;
}

export function readChecks(name: string): Check[] {
  return JSON.parse(readFileSync(new URL(`../fixtures/published/${name}.json`, import.meta.url), 'utf8'));
}

/** The tables give ten digits: a tolerance counts against the size of values above 1. */
export function close(got: number, want: number, tolerance: number): void {
  expect(Math.abs(got - want), `got ${got}, published ${want}`).toBeLessThanOrEqual(
    Math.max(tolerance, 1e-9) * Math.max(1, Math.abs(want)),
  );
}
