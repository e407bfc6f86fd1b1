import { PACE_ZERO } from './edge.ts';

/**
 * Beyond a critical gradient it is quicker to zig-zag (Kay 2012): the same rise at a smaller gradient over a longer way,
 * pace(g) = |g| · min over g' between 0 and g of pace(g')/|g'|. On a plane this makes the cost convex in the direction.
 */
export function zigzagPace(pace: Float64Array): Float64Array {
  const eased = Float64Array.from(pace);
  for (const side of [1, -1]) {
    let least = Number.POSITIVE_INFINITY;
    for (let step = 1; step <= PACE_ZERO; step++) {
      const at = PACE_ZERO + side * step;
      least = Math.min(least, pace[at]! / step);
      eased[at] = least * step;
    }
  }
  return eased;
}
