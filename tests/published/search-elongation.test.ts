import { expect, test } from 'vitest';
import { costField } from '../../src/search/field.ts';
import { plane } from '../search/ground.ts';

// checks F.elongation.8, .16, .32: geometry, 1 / cos(largest gap between directions / 2); Goodchild 1977 and Huber & Church 1985 discuss it
const WORST = { 8: 1.0823922, 16: 1.027486297, 32: 1.013081457 } as const;

/** Shortest sum of steps over straight distance, at worst, when only the moves of a neighbourhood are allowed. */
function worstOf(moves: readonly (readonly [number, number])[]): number {
  const angles = moves.map(([x, y]) => Math.atan2(y, x)).sort((a, b) => a - b);
  const gaps = angles.map((a, i) => (angles[i + 1] ?? angles[0]! + 2 * Math.PI) - a);
  return 1 / Math.cos(Math.max(...gaps) / 2);
}

test.each([
  [8, 1],
  [16, 2],
  [32, 3],
] as const)('%s neighbours: the worst elongation of a straight line', (count, reach) => {
  const steps = Array.from({ length: 2 * reach + 1 }, (_, i) => i - reach);
  const gcd = (a: number, b: number): number => (b === 0 ? Math.abs(a) : gcd(b, a % b));
  const moves = steps.flatMap((x) => steps.map((y) => [x, y] as const)).filter(([x, y]) => gcd(x, y) === 1);
  expect(moves).toHaveLength(count);
  expect(Math.abs(worstOf(moves) - WORST[count])).toBeLessThan(1e-7);
});

test('the field of this program has the elongation of 8 neighbours, no more and no less', () => {
  const side = 241;
  const field = costField(
    plane(side, 0, 0, () => 1),
    [0],
    'from',
  );
  let worst = 0;
  let fromClosedForm = 0;
  for (let r = 0; r < side; r++) {
    for (let c = r === 0 ? 1 : 0; c < side; c++) {
      const straight = 10 * Math.sqrt(r * r + c * c);
      worst = Math.max(worst, field[r * side + c]! / straight);
      // closed form: the longer axis plus (√2 − 1) of the shorter
      const octile = 10 * (Math.max(r, c) + (Math.SQRT2 - 1) * Math.min(r, c));
      fromClosedForm = Math.max(fromClosedForm, Math.abs(field[r * side + c]! / octile - 1));
    }
  }
  expect(fromClosedForm).toBeLessThan(5e-6);
  expect(worst).toBeLessThan(WORST[8] + 2e-6);
  // 70/169 is a convergent of tan 22.5°
  expect(worst).toBeGreaterThan(WORST[8] - 2e-6);
});
