import type { Point } from '../math/plane.ts';
import type { Feature } from './feature.ts';
import { indexFeatures, nearFeatures } from './index-near.ts';

/** A stream that stops this close to the edge of a lake or tarn runs into or out of it, metres. */
const SHORE = 10;

/** Finds the lake, tarn or pool (drawn as an area) at whose edge or in which a place lies. */
export function waterAt(features: readonly Feature[]): (at: Point) => Feature | null {
  const waters = features.filter(
    (f) => f.geometry.type === 'area' && (f.kind === 'lake' || f.kind === 'tarn' || f.kind === 'pool'),
  );
  const index = indexFeatures(waters);
  return (at) => {
    const [first] = nearFeatures(index, at[0], at[1], SHORE);
    return first === undefined ? null : waters[first]!;
  };
}
