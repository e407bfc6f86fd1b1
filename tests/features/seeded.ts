/** Uniform numbers in [0, 1) from a seed (a 32-bit linear congruential step, mixed): for making test grounds and damaged files, nothing else. */
export function seeded(seed: number): () => number {
  let state = (seed * 2654435761) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    let x = state;
    x ^= x >>> 16;
    x = Math.imul(x, 0x45d9f3b);
    x ^= x >>> 16;
    return (x >>> 0) / 4294967296;
  };
}
