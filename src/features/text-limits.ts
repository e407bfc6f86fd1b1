import { UserError } from '../door/user-error.ts';

/** Largest text that is parsed at all, characters. A whole county of features is a tenth of it. */
export const MOST_CHARACTERS = 100_000_000;
/** Most features and most vertices of one file. */
export const MOST_FEATURES = 200_000;
export const MOST_VERTICES = 5_000_000;
/** Deepest nesting: GeoJSON itself needs nine levels, other people's properties a few more. */
const MOST_NESTED = 64;

/** Refuses a text too long to be parsed, before anything is allocated for it. */
export function checkLength(length: number, where: string): void {
  if (length <= MOST_CHARACTERS) return;
  throw new UserError({
    what: 'this file is too large to read; cut it to the ground of the task first',
    where,
    got: `${Math.round(length / 1e6)} MB`,
    expected: `at most ${MOST_CHARACTERS / 1e6} MB`,
  });
}

/** Refuses JSON nested so deeply that a parser or checker could run out of stack. */
export function checkNesting(json: string, where: string): void {
  let depth = 0;
  for (let i = 0; i < json.length; i++) {
    const c = json.charCodeAt(i);
    if (c === 0x22) {
      // skip the string, minding escapes
      for (i++; i < json.length && json.charCodeAt(i) !== 0x22; i++) if (json.charCodeAt(i) === 0x5c) i++;
    } else if (c === 0x7b || c === 0x5b) {
      depth++;
      if (depth > MOST_NESTED) {
        throw new UserError({
          what: 'this JSON is nested too deeply',
          where,
          got: `more than ${MOST_NESTED} levels`,
          expected: 'a GeoJSON FeatureCollection',
        });
      }
    } else if (c === 0x7d || c === 0x5d) depth--;
  }
}
