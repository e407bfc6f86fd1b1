/** Buckets are numbered 0 … LAST_BUCKET; a caller puts everything beyond into the last one. */
export const LAST_BUCKET = 0x3fffffff;

const WHEEL = 1024;
/** Entries come in chunks of 64 cells, the first of which links to the chunk before. */
const CHUNK = 64;
const NOTHING = CHUNK - 1;

/**
 * A monotone queue of integers in numbered buckets: what is put in may not lie before the bucket being emptied.
 * Three wheels of 1024 slots (a radix heap of base 1024) hold 2^30 buckets in 12 kB, so costs may span any range;
 * only entries near the present bucket sit in the first wheel, others cascade at most twice.
 *
 * The present bucket is emptied a chunk at a time, which is faster than entry by entry; the order inside a bucket is of no meaning:
 *
 *     for (let top = queue.take(); top >= 0; queue.release(top), top = queue.take())
 *       for (let at = top; isEntry(at); at--) … queue.pool[at] …
 */
export class BucketQueue {
  /** The bucket being emptied. */
  current = 0;
  /** Where the entries lie. Another array once it has grown: read it anew for every entry. */
  pool = new Int32Array(CHUNK * 1024);
  readonly #bucketOf: (entry: number) => number;
  readonly #top = new Int32Array(3 * WHEEL).fill(NOTHING);
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
    this.pool[top] = entry;
    this.#top[slot] = top;
  }

  /** Takes the last chunk of the present bucket and gives the place of its top entry, or −1 when the bucket is empty. */
  take(): number {
    const slot = this.current & 1023;
    const top = this.#top[slot]!;
    if (top === NOTHING) return -1;
    this.#top[slot] = this.pool[top & ~63]!;
    return top;
  }

  /** Gives back a chunk that has been read. */
  release(top: number): void {
    const chunk = top & ~63;
    this.pool[chunk] = this.#free;
    this.#free = chunk;
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

  /** Forgets every entry and begins again at bucket 0; what it has grown to stays. */
  clear(): void {
    this.current = 0;
    this.#top.fill(NOTHING);
    this.#used = CHUNK;
    this.#free = 0;
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
        let top = this.#top[slot]!;
        this.#top[slot] = NOTHING;
        while (top !== NOTHING) {
          for (let at = top; isEntry(at); at--) {
            const entry = this.pool[at]!;
            const bucket = this.#bucketOf(entry);
            if (bucket >= base) this.push(entry, bucket);
          }
          const before = this.pool[top & ~63]!;
          this.release(top);
          top = before;
        }
        return true;
      }
    }
    return false;
  }

  #chunk(previous: number): number {
    let chunk = this.#free;
    if (chunk !== 0) this.#free = this.pool[chunk]!;
    else {
      chunk = this.#used;
      this.#used += CHUNK;
      if (this.#used > this.pool.length) {
        const larger = new Int32Array(this.pool.length * 2);
        larger.set(this.pool);
        this.pool = larger;
      }
    }
    this.pool[chunk] = previous;
    return chunk + 1;
  }
}

/** Whether a place in the pool, counted down from the top of its chunk, still holds an entry. */
export function isEntry(at: number): boolean {
  return (at & 63) !== 0;
}
