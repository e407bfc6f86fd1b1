/*
 * Keyed random streams. A draw is a function of (seed, trial, purpose, id) and of its number within that stream, never of
 * what was drawn before elsewhere: adding a feature, a route or a worker shifts nothing.
 *
 * Key: MurmurHash3 (Appleby, public domain) over the four words, twice with different starts, fills the two words of state.
 * Generator: xoroshiro64** 1.0 (Blackman & Vigna, public domain):
 *   result = rotl(s0 · 0x9E3779BB, 5) · 5;  s1 ^= s0;  s0 = rotl(s0, 26) ^ s1 ^ (s1 << 9);  s1 = rotl(s1, 13)
 */

/** State of one stream; made once and started again for every key, so that a walk allocates nothing. */
export interface Stream {
  s0: number;
  s1: number;
}

export function newStream(): Stream {
  return { s0: 1, s1: 0 };
}

/** Starts `stream` at its key. All parts are taken as unsigned 32-bit integers. */
export function startStream(stream: Stream, seed: number, trial: number, purpose: number, id: number): void {
  const s0 = hashKey(0x2f1b3c4d, seed, trial, purpose, id);
  const s1 = hashKey(0x6a09e667, seed, trial, purpose, id);
  stream.s0 = s0;
  // the all-zero state is the one fixed point of the generator
  stream.s1 = s0 === 0 && s1 === 0 ? 1 : s1;
}

/** Next 32 bits as an unsigned integer. */
export function nextWord(stream: Stream): number {
  const s0 = stream.s0;
  let s1 = stream.s1;
  const m = Math.imul(s0, 0x9e3779bb);
  const result = Math.imul((m << 5) | (m >>> 27), 5);
  s1 ^= s0;
  stream.s0 = ((s0 << 26) | (s0 >>> 6)) ^ s1 ^ (s1 << 9);
  stream.s1 = (s1 << 13) | (s1 >>> 19);
  return result >>> 0;
}

/** Next uniform number, open interval (0, 1). */
export function nextUniform(stream: Stream): number {
  return (nextWord(stream) + 0.5) * 2.3283064365386963e-10;
}

/** 32-bit hash of a text (FNV-1a over UTF-16 units, then the Murmur finaliser): the id of a feature's streams. */
export function hashText(text: string): number {
  let h = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return finish(h) >>> 0;
}

function hashKey(start: number, a: number, b: number, c: number, d: number): number {
  return finish(absorb(absorb(absorb(absorb(start, a), b), c), d) ^ 16);
}

function absorb(h: number, word: number): number {
  let k = Math.imul(word, 0xcc9e2d51);
  k = (k << 15) | (k >>> 17);
  const x = h ^ Math.imul(k, 0x1b873593);
  return (Math.imul((x << 13) | (x >>> 19), 5) + 0xe6546b64) | 0;
}

function finish(hash: number): number {
  let h = hash;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
