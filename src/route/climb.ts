/**
 * Rises and falls that turn back before this many metres are not counted: raster noise and the roughness of the ground
 * are no climb. Common practice, no source.
 */
export const CLIMB_THRESHOLD = 5;

/**
 * Climb and descent of a profile, metres. A turn from up to down (or back) counts once the height has come `threshold`
 * metres away from the turning point; what is left at the end counts in full, so climb − descent is the difference of the ends.
 */
export function climbOf(
  heights: ArrayLike<number>,
  threshold = CLIMB_THRESHOLD,
): { climbMetres: number; descentMetres: number } {
  let climb = 0;
  let descent = 0;
  // Before the first counted turn the lowest and the highest so far are both kept: either may be it.
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let turned = Number.NaN;
  let extreme = 0;
  let way = 0;
  let last = Number.NaN;
  const count = (rise: number) => {
    if (rise > 0) climb += rise;
    else descent -= rise;
  };
  for (let i = 0; i < heights.length; i++) {
    const z = heights[i]!;
    if (!Number.isFinite(z)) continue;
    if (Number.isNaN(turned)) turned = z;
    last = z;
    if (way === 0) {
      low = Math.min(low, z);
      high = Math.max(high, z);
      if (high - low < threshold) continue;
      way = z === high ? 1 : -1;
      const first = way > 0 ? low : high;
      count(first - turned);
      turned = first;
      extreme = z;
    } else if ((z - extreme) * way >= 0) {
      extreme = z;
    } else if ((extreme - z) * way >= threshold) {
      count(extreme - turned);
      turned = extreme;
      extreme = z;
      way = -way;
    }
  }
  if (!Number.isNaN(last)) count(last - turned);
  return { climbMetres: climb, descentMetres: descent };
}
