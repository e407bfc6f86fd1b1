import type { Point } from '../math/plane.ts';

/** `wrong` must be put right, `doubtful` should be looked at, `known` is a limit to bear in mind. */
export type Weight = 'wrong' | 'doubtful' | 'known';

/** One thing that `check` has to say, in plain words. */
export interface Finding {
  readonly weight: Weight;
  readonly about: 'elevation' | 'features' | 'task';
  readonly says: string;
  /** Ids of the features meant, most telling first. */
  readonly ids?: readonly string[];
  /** Where to look, in the terrain's CRS. */
  readonly at?: Point;
}

/** "a, b, c and 4 more". */
export function someOf(names: readonly string[], most = 5): string {
  if (names.length <= most) return names.join(', ');
  return `${names.slice(0, most).join(', ')} and ${names.length - most} more`;
}

/** "1 wall", "3 walls". */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}
