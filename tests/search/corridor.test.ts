import { expect, test } from 'vitest';
import { alternatives, corridor, lineThrough } from '../../src/search/corridor.ts';
import { lineSeconds } from '../../src/search/edge.ts';
import { hills } from './ground.ts';
import { textMap } from './text-map.ts';

const SIDE = 70;
const [START, TARGET] = [0, SIDE * SIDE - 1];

test('the sum of the two fields is the cost of the best line through each cell', () => {
  const surface = hills(SIDE);
  surface.factor[TARGET] = 1;
  const paths = corridor(surface, START, TARGET);
  let asked = 0;
  for (let cell = 0; cell < SIDE * SIDE; cell += 13) {
    const line = lineThrough(surface, paths, cell);
    if (line === null) {
      expect(paths.through[cell]).toBe(Infinity);
      continue;
    }
    asked++;
    expect([line[0], line.at(-1), line.includes(cell)]).toEqual([START, TARGET, true]);
    expect(Math.abs(lineSeconds(surface, line) / paths.through[cell]! - 1)).toBeLessThan(5e-6);
    expect(paths.through[cell]! / paths.least).toBeGreaterThan(1 - 2e-6);
  }
  expect(asked).toBeGreaterThan(300);
});

test('alternatives keep within the slack and apart from one another, the best first', () => {
  const surface = hills(SIDE);
  surface.factor[TARGET] = 1;
  const paths = corridor(surface, START, TARGET);
  const options = { count: 5, slack: 0.3, shared: 0.5, apartMetres: 30 };
  const found = alternatives(surface, paths, options);
  expect(found.length).toBeGreaterThan(1);
  expect(Math.abs(found[0]!.seconds / paths.least - 1)).toBeLessThan(5e-6);
  found.forEach((line, i) => {
    expect(line.seconds).toBeLessThan(paths.least * 1.3001);
    if (i > 0) expect(line.seconds).toBeGreaterThanOrEqual(found[i - 1]!.seconds * (1 - 5e-6));
    for (const other of found.slice(0, i)) {
      const near = [...line.cells].filter((a) =>
        other.cells.some(
          (b) =>
            Math.abs((a % SIDE) - (b % SIDE)) <= 3 &&
            Math.abs(Math.floor(a / SIDE) - Math.floor(b / SIDE)) <= 3,
        ),
      );
      expect(near.length / line.cells.length).toBeLessThanOrEqual(0.5);
    }
  });
  expect(alternatives(surface, paths, { ...options, count: 1 })).toHaveLength(1);
});

test('open flat ground has one line, an unreachable target none, start = target one of one cell', () => {
  const flat = textMap(`
    .........
    .S.....T.
    .........
  `);
  const options = { count: 5, slack: 0.5, shared: 0.6, apartMetres: 20 };
  const find = ({ surface, place }: typeof flat, a: string, b: string) =>
    alternatives(surface, corridor(surface, place(a), place(b)), options);
  expect(find(flat, 'S', 'T')).toHaveLength(1);
  expect(find(textMap('S.#.T'), 'S', 'T')).toEqual([]);
  expect(find(flat, 'S', 'S').map((line) => [...line.cells])).toEqual([[10]]);
});
