import { readdirSync } from 'node:fs';
import { expect } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { toGround } from '../../src/terrain/to-ground.ts';
import { fixture } from './heights.ts';
import { mutator } from './mutate.ts';

const LIMITS = { bytes: 1_000_000, cells: 200_000 };
const SLOW_MILLISECONDS = 5_000;

/** Damaged copies of every fixture: each is read or refused with a `UserError`, in time. Gives how many went either way. */
export async function damageAll(count: number, seed: number): Promise<{ read: number; refused: number }> {
  const names = ['encodings', 'other'].flatMap((folder) =>
    readdirSync(new URL(`../fixtures/terrain/${folder}`, import.meta.url)).map((name) => `${folder}/${name}`),
  );
  const files = names.map((name) => ({ name, bytes: fixture(name) }));
  const mutate = mutator(seed);
  const ends = { read: 0, refused: 0 };
  for (let i = 0; i < count; i++) {
    const { name, bytes } = files[i % files.length]!;
    const damaged = mutate(new Uint8Array(bytes));
    const from = performance.now();
    try {
      const grid = await decodeHeights(damaged, name, LIMITS);
      toGround([grid], { limits: LIMITS });
      ends.read++;
    } catch (error) {
      if (!(error instanceof UserError)) throw new Error(`file ${i}, ${name}: ${(error as Error).stack}`);
      ends.refused++;
    }
    expect(performance.now() - from, `file ${i}, ${name}`).toBeLessThan(SLOW_MILLISECONDS);
  }
  return ends;
}
