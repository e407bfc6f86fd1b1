import { describe, expect, test } from 'vitest';
import { flowsAsDrawn, towardsSign } from '../../src/features/line.ts';
import type { Point } from '../../src/math/plane.ts';

const northward: Point[] = [
  [0, 0],
  [10, 500],
  [0, 1000],
];
/** Rises to the north by one in ten. */
const heightAt = (_: number, north: number) => north / 10;

describe('towards', () => {
  test.each([
    ['mouth', -1],
    ['source', 1],
    ['upstream', 1],
    ['down', -1],
    ['start', -1],
    ['end', 1],
    ['north', 1],
    ['N', 1],
    ['north east', 1],
    ['south-west', -1],
    ['SouthEast', -1],
  ])('%s', (word, sign) => {
    expect(towardsSign(northward, word, 'task.yaml', { heightAt })).toBe(sign);
  });

  test('without heights a stream runs as it is drawn', () => {
    expect(towardsSign(northward, 'mouth', 'x')).toBe(1);
    expect(flowsAsDrawn(northward)).toBe(true);
    expect(flowsAsDrawn(northward, heightAt)).toBe(false);
    expect(flowsAsDrawn(northward, () => Number.NaN)).toBe(true);
    // 10 cm over a kilometre is no slope that a height model can tell
    expect(flowsAsDrawn(northward, (_, n) => n / 10_000)).toBe(true);
  });

  test('a compass word is seen from where one stands: on a horseshoe both ends may lie south', () => {
    const horseshoe: Point[] = [
      [0, 0],
      [0, 500],
      [300, 500],
      [300, 200],
    ];
    expect(towardsSign(horseshoe, 'south', 'x', { fromAlong: 600 })).toBe(-1);
    expect(towardsSign(horseshoe, 'east', 'x', { fromAlong: 600 })).toBe(1);
  });

  test('a word that says nothing is one message', () => {
    expect(() => towardsSign(northward, 'sorce', 'task.yaml, line 7')).toThrow(
      'task.yaml, line 7: this does not say which way along the line (got "sorce"; did you mean source?, expected source, mouth, start, end or a compass word such as north-east)',
    );
  });
});
