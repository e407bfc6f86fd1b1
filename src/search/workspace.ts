/** Floats that are kept for the next search: 64 MB. */
const KEPT = 1 << 24;

let kept = new Float32Array(0);

/**
 * Memory for one search, with whatever the search before left in it. Fresh pages cost a small search a tenth of its time, so they are used
 * again; a search must be done with them before the next begins. What is larger than is worth keeping is made anew.
 */
export function workspace(floats: number): Float32Array<ArrayBuffer> {
  if (floats > KEPT) return new Float32Array(floats);
  if (floats > kept.length) kept = new Float32Array(floats);
  return kept.subarray(0, floats);
}
