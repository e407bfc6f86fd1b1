import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import { lineLength, type Point, pointAlong } from '../math/plane.ts';

/** Height in metres at a place; NaN where it is unknown. */
export type HeightAt = (east: number, north: number) => number;

/** Whether a stream runs from its first vertex to its last. By the heights of its ends where they differ by half a metre, else as drawn: open data draw streams downhill (common practice). */
export function flowsAsDrawn(points: readonly Point[], heightAt?: HeightAt): boolean {
  if (heightAt === undefined) return true;
  const [ax, ay] = points[0]!;
  const [bx, by] = points[points.length - 1]!;
  const fall = heightAt(ax, ay) - heightAt(bx, by);
  return Math.abs(fall) >= 0.5 ? fall > 0 : true;
}

const NORTHWARD: Readonly<Record<string, readonly [number, number]>> = {
  north: [0, 1],
  'north-east': [1, 1],
  east: [1, 0],
  'south-east': [1, -1],
  south: [0, -1],
  'south-west': [-1, -1],
  west: [-1, 0],
  'north-west': [-1, 1],
};
const SHORT: Readonly<Record<string, string>> = {
  n: 'north',
  ne: 'north-east',
  e: 'east',
  se: 'south-east',
  s: 'south',
  sw: 'south-west',
  w: 'west',
  nw: 'north-west',
};
const DOWN = ['mouth', 'downstream', 'downhill', 'down'];
const UP = ['source', 'upstream', 'uphill', 'up'];

/** Words that say which way along a line. */
export const TOWARDS_WORDS: readonly string[] = [...DOWN, ...UP, 'start', 'end', ...Object.keys(NORTHWARD)];

/**
 * Which way along a line `towards` points: +1 to the last vertex, −1 to the first.
 * Up and down go by the heights of the ends (without heights as drawn, downhill); `start` and `end` are the first and last vertex;
 * a compass word takes the end that lies more in that direction from `fromAlong` (the middle when not given).
 */
export function towardsSign(
  points: readonly Point[],
  towards: string,
  where: string,
  options: { readonly heightAt?: HeightAt; readonly fromAlong?: number } = {},
): 1 | -1 {
  const word = towards
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  if (word === 'end') return 1;
  if (word === 'start') return -1;
  if (DOWN.includes(word)) return flowsAsDrawn(points, options.heightAt) ? 1 : -1;
  if (UP.includes(word)) return flowsAsDrawn(points, options.heightAt) ? -1 : 1;
  const compass = NORTHWARD[SHORT[word] ?? word.replace(/^(north|south)(east|west)$/, '$1-$2')];
  if (compass === undefined) {
    throw new UserError({
      what: 'this does not say which way along the line',
      where,
      got: `"${towards}"${suggestion(word, TOWARDS_WORDS)}`,
      expected: 'source, mouth, start, end or a compass word such as north-east',
    });
  }
  const [x, y] = pointAlong(points, options.fromAlong ?? lineLength(points) / 2);
  const reach = ([px, py]: Point) => (px - x) * compass[0] + (py - y) * compass[1];
  return reach(points[points.length - 1]!) >= reach(points[0]!) ? 1 : -1;
}
