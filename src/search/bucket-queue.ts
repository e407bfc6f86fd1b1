/** Buckets are numbered 0 … LAST_BUCKET; a caller puts everything beyond into the last one. */
export const LAST_BUCKET = 0x3fffffff;

const WHEEL = 1024;
const CHUNK = 64;
const NOTHING = CHUNK - 1;

/**
 * A monotone queue of integers in numbered buckets: what is put in may not lie before the bucket being emptied.
 * Three wheels of 1024 slots (a radix heap of base 1024) hold 2^30 buckets in 12 kB, so costs may span any range;
 * only entries near the present bucket sit in the first wheel, others cascade at most twice.
 * The order inside a bucket is last in, first out.
 */
export class BucketQueue {
  /** The bucket being emptied. */
  current = 0;
  readonly #bucketOf: (entry: number) => number;
  readonly #top = new Int32Array(3 * WHEEL).fill(NOTHING);
  #pool = new Int32Array(CHUNK * 1024);
  #used = CHUNK;
  #free = 0;

  /** `bucketOf` gives an entry's bucket of this moment, asked when it cascades to a finer wheel. */
  constructor(bucketOf: (entry: number) => number) {
    this.#bucketOf = bucketOf;
  }

  push(entry: number, bucket: number): void {
    const apart = bucket ^ this.current;
    const slot =
      apart < WHEEL
        ? bucket & 1023
        : apart < WHEEL * WHEEL
          ? WHEEL + ((bucket >> 10) & 1023)
          : 2 * WHEEL + (bucket >> 20);
    let top = this.#top[slot]! + 1;
    if ((top & 63) === 0) top = this.#chunk(top - 1);
    this.#pool[top] = entry;
    this.#top[slot] = top;
  }

  /** Takes an entry of the present bucket, or −1 when it is empty. */
  pop(): number {
    const slot = this.current & 1023;
    const top = this.#top[slot]!;
    if (top === NOTHING) return -1;
    const entry = this.#pool[top]!;
    this.#lower(slot, top - 1);
    return entry;
  }

  /** Goes on to the next bucket that holds something; false when nothing is left. */
  advance(): boolean {
    for (;;) {
      const tops = this.#top;
      for (let b = this.current & 1023; b < WHEEL; b++) {
        if (tops[b] !== NOTHING) {
          this.current = (this.current & ~1023) | b;
          return true;
        }
      }
      if (!this.#cascade()) return false;
    }
  }

  /** Entries of the nearest coarse slot move to finer ones; entries that have meanwhile gone to earlier buckets are dropped. */
  #cascade(): boolean {
    for (let wheel = 1; wheel < 3; wheel++) {
      const shift = 10 * wheel;
      for (let s = ((this.current >> shift) & 1023) + 1; s < WHEEL; s++) {
        const slot = wheel * WHEEL + s;
        if (this.#top[slot] === NOTHING) continue;
        const base = ((this.current >> (shift + 10)) << (shift + 10)) | (s << shift);
        this.current = base;
        for (let top = this.#top[slot]!; top !== NOTHING; top = this.#top[slot]!) {
          const entry = this.#pool[top]!;
          this.#lower(slot, top - 1);
          const bucket = this.#bucketOf(entry);
          if (bucket >= base) this.push(entry, bucket);
        }
        return true;
      }
    }
    return false;
  }

  #lower(slot: number, below: number): void {
    if ((below & 63) !== 0) {
      this.#top[slot] = below;
      return;
    }
    // the chunk is empty: its first cell links to the chunk before it
    this.#top[slot] = this.#pool[below]!;
    this.#pool[below] = this.#free;
    this.#free = below;
  }

  #chunk(previous: number): number {
    let chunk = this.#free;
    if (chunk !== 0) this.#free = this.#pool[chunk]!;
    else {
      chunk = this.#used;
      this.#used += CHUNK;
      if (this.#used > this.#pool.length) {
        const larger = new Int32Array(this.#pool.length * 2);
        larger.set(this.#pool);
        this.#pool = larger;
      }
    }
    this.#pool[chunk] = previous;
    return chunk + 1;
  }
}
