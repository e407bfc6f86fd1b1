import Flatbush from 'flatbush';
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
  const tree = new Flatbush(arms.length);
  for (const { at } of arms) tree.add(at[0], at[1]);
  tree.finish();

  // union-find with the lowest index as root, so that the order of groups is the order of arms
  const root = Int32Array.from(arms, (_, i) => i);
  const find = (i: number): number => {
    while (root[i] !== i) {
      root[i] = root[root[i]!]!;
      i = root[i]!;
    }
    return i;
  };
  arms.forEach(({ at }, i) => {
    for (const j of tree.search(at[0] - tolerance, at[1] - tolerance, at[0] + tolerance, at[1] + tolerance)) {
      if (j <= i || distance(at, arms[j]!.at) > tolerance) continue;
      const a = find(i);
      const b = find(j);
      if (a < b) root[b] = a;
      else root[a] = b;
    }
  });

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
