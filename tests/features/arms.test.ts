import { expect, it } from 'vitest';
import { type Arm, clusterArms } from '../../src/features/arms.ts';
import type { Chained } from '../../src/features/chainage.ts';
import type { Point } from '../../src/math/plane.ts';
import { seeded } from './seeded.ts';

/** Groups by joining every near pair until nothing changes: the definition, without a thought for time. */
function groupsOf(arms: readonly Arm[], tolerance: number): string[] {
  const group = arms.map((_, i) => i);
  for (let changed = true; changed; ) {
    changed = false;
    arms.forEach((a, i) => {
      arms.forEach((b, j) => {
        const [dx, dy] = [a.at[0] - b.at[0], a.at[1] - b.at[1]];
        if (group[i] === group[j] || Math.sqrt(dx * dx + dy * dy) > tolerance) return;
        const [low, high] = [Math.min(group[i]!, group[j]!), Math.max(group[i]!, group[j]!)];
        for (let k = 0; k < group.length; k++) if (group[k] === high) group[k] = low;
        changed = true;
      });
    });
  }
  return [...new Set(group)]
    .map((g) => arms.flatMap(({ line }, i) => (group[i] === g ? [line] : [])).join(' '))
    .sort();
}

it('arms are grouped as if pair by pair, chains and arms on one spot included', () => {
  for (let seed = 1; seed <= 60; seed++) {
    const next = seeded(seed);
    const spread = 10 + 50 * next();
    const grain = [1, 0.25, 3][seed % 3]!;
    const arms = Array.from({ length: 5 + Math.floor(60 * next()) }, (_, line): Arm => {
      const at: Point = [Math.round(((next() - 0.5) * spread) / grain) * grain, Math.round(next() * spread)];
      return { line, along: 0, at, corner: false };
    });
    const lines = arms.map(({ at }) => ({ points: [at], along: [0, 100] }) as unknown as Chained);
    const found = clusterArms(arms, lines, 3).map((group) => group.map(({ line }) => line).join(' '));
    expect(found.sort(), `seed ${seed}`).toEqual(groupsOf(arms, 3));
  }
});
