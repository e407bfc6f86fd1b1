import { distance, type Point } from '../math/plane.ts';
import type { Chained } from './chainage.ts';

/** One line at one place of it. */
export interface Arm {
  /** Position in the list of lines. */
  readonly line: number;
  readonly along: number;
  readonly at: Point;
  readonly corner: boolean;
}

/** Which end of its line an arm is at; null in between. */
export function endOf(arm: Arm, lines: readonly Chained[]): 'start' | 'end' | null {
  const { along } = lines[arm.line]!;
  return arm.along === 0 ? 'start' : arm.along === along[along.length - 1] ? 'end' : null;
}

/** Groups arms that lie within `tolerance` of each other; in a group a line stands once per visit, at its end where it has one. Ordered by line, then metres along. */
export function clusterArms(arms: readonly Arm[], lines: readonly Chained[], tolerance: number): Arm[][] {
  if (arms.length === 0) return [];
  // union-find with the lowest index as root, so that the order of groups is the order of arms
  const root = Int32Array.from(arms, (_, i) => i);
  const find = (i: number): number => {
    while (root[i] !== i) {
      root[i] = root[root[i]!]!;
      i = root[i]!;
    }
    return i;
  };
  const join = (i: number, j: number): void => {
    const a = find(i);
    const b = find(j);
    if (a < b) root[b] = a;
    else root[a] = b;
  };

  // Arms that share a square are near enough whatever they are; of two squares one near pair is enough. Pair by pair, a place where
  // hundreds of lines begin would take the square of their number.
  const side = Math.max(tolerance, 1e-6) * 0.7;
  const squares = new Map<string, number[]>();
  const square = (at: Point) => [Math.floor(at[0] / side), Math.floor(at[1] / side)] as const;
  arms.forEach(({ at }, i) => {
    const [column, row] = square(at);
    const key = `${column} ${row}`;
    const inside = squares.get(key);
    if (inside === undefined) squares.set(key, [i]);
    else {
      join(inside[0]!, i);
      inside.push(i);
    }
  });
  for (const inside of squares.values()) {
    const [column, row] = square(arms[inside[0]!]!.at);
    for (let r = row - 2; r <= row + 2; r++) {
      for (let c = column - 2; c <= column + 2; c++) {
        const others = squares.get(`${c} ${r}`);
        if (others === undefined || find(others[0]!) === find(inside[0]!)) continue;
        const near = (i: number) => others.some((j) => distance(arms[i]!.at, arms[j]!.at) <= tolerance);
        if (inside.some(near)) join(inside[0]!, others[0]!);
      }
    }
  }

  const groups = new Map<number, Arm[]>();
  arms.forEach((arm, i) => {
    const group = groups.get(find(i));
    if (group === undefined) groups.set(find(i), [arm]);
    else group.push(arm);
  });
  return [...groups.values()]
    .map((group) => oncePerVisit(group, lines, 4 * tolerance))
    .sort((a, b) => a[0]!.line - b[0]!.line || a[0]!.along - b[0]!.along);
}

function oncePerVisit(group: Arm[], lines: readonly Chained[], apart: number): Arm[] {
  group.sort((a, b) => a.line - b.line || a.along - b.along);
  const kept: Arm[] = [];
  for (const arm of group) {
    const before = kept[kept.length - 1];
    if (before === undefined || before.line !== arm.line || arm.along - before.along > apart) {
      kept.push(arm);
      continue;
    }
    const better = endOf(before, lines) === null && endOf(arm, lines) !== null ? arm : before;
    kept[kept.length - 1] = { ...better, corner: better.corner || before.corner || arm.corner };
  }
  return kept;
}
