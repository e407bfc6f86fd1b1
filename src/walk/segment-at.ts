/** Segment k of a polyline with along[k] ≤ at < along[k+1], clamped to the first and the last. */
export function segmentAt(along: Float64Array, at: number): number {
  let low = 0;
  let high = along.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (along[middle]! <= at) low = middle;
    else high = middle - 1;
  }
  return low < 0 ? 0 : low;
}
