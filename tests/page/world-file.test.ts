import { expect, test } from 'vitest';
import { worldBounds } from '../../viz/page/drops.ts';

// A world file gives the cell's size and the CENTRE of the upper left cell (ESRI's definition): the picture begins half a cell before it.
test('a picture lies where its world file says, edges half a cell beyond the first centre', () => {
  expect(worldBounds('2.0\n0\n0\n-2.0\n300001\n500999\n', 500, 400)).toEqual({
    west: 300_000,
    east: 301_000,
    north: 501_000,
    south: 500_200,
  });
});

test.each(['', 'nonsense', '2 0.1 0.1 -2 0 0', '2 0 0 2 0 0', '2 0 0 -2 300001'])(
  'a world file that does not place it is refused: "%s"',
  (text) => {
    expect(() => worldBounds(text, 500, 400)).toThrow('world file');
  },
);
