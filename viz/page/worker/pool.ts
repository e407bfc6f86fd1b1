import type { WalkAnswer, Walkers, WalkJob } from '../../../src/walk/jobs.ts';
import { addTally, newTally, type Tally, trimTally } from '../../../src/walk/tally.ts';
import type { FromWalker, ToWalker } from '../messages.ts';

/** Work that a newer state of the task has made useless. */
export class Superseded extends Error {}

interface Waiting {
  readonly key: string;
  readonly job: WalkJob;
  readonly resolve: (answer: WalkAnswer) => void;
  readonly reject: (error: Error) => void;
}

/**
 * Shares jobs out to workers behind ports as each gets done, so that all end together. At depth 2 a worker has its next job at
 * hand when it ends one and loses no time waiting for it.
 */
export class Pool {
  /** A port for every job that may be sent at once. */
  private readonly idle: MessagePort[] = [];
  private readonly busy = new Map<number, Waiting>();
  private queue: Waiting[] = [];
  private number = 0;

  constructor(ports: readonly MessagePort[], depth: 1 | 2 = 1) {
    for (const port of ports) {
      port.onmessage = ({ data }: MessageEvent<FromWalker>) => this.heard(port, data);
    }
    for (let i = 0; i < depth; i++) this.idle.push(...ports);
  }

  run(key: string, job: WalkJob): Promise<WalkAnswer> {
    return new Promise((resolve, reject) => {
      this.queue.push({ key, job, resolve, reject });
      this.next();
    });
  }

  /** Drops what has not been begun. */
  clear(): void {
    const dropped = this.queue;
    this.queue = [];
    for (const waiting of dropped) waiting.reject(new Superseded());
  }

  private next(): void {
    while (this.idle.length > 0 && this.queue.length > 0) {
      const port = this.idle.shift()!;
      const waiting = this.queue.shift()!;
      const number = this.number++;
      this.busy.set(number, waiting);
      port.postMessage({ do: 'walk', key: waiting.key, number, job: waiting.job } satisfies ToWalker);
    }
  }

  private heard(port: MessagePort, message: FromWalker): void {
    const waiting = this.busy.get(message.number);
    this.busy.delete(message.number);
    this.idle.push(port);
    if ('answer' in message) waiting?.resolve(message.answer);
    else waiting?.reject(message.fault === 'superseded' ? new Superseded() : new Error(message.fault));
    this.next();
  }
}

/** The pool as the study knows walkers; long jobs go in pieces of so many attempts, which merge to the same tally. */
export function walkersOn(pool: Pool, key: string, piece: number): Walkers {
  return {
    run: async (job) => (job.do === 'simulate' ? simulated(pool, key, job, piece) : pool.run(key, job)),
    close: async () => {},
  };
}

/** All attempts of a job, in pieces. */
export async function simulated(
  pool: Pool,
  key: string,
  job: Extract<WalkJob, { do: 'simulate' }>,
  piece: number,
): Promise<Tally> {
  const pieces: Promise<WalkAnswer>[] = [];
  for (let from = job.from; from < job.to; from += piece) {
    pieces.push(pool.run(key, { ...job, from, to: Math.min(job.to, from + piece) }));
  }
  return joined((await Promise.all(pieces)) as Tally[]);
}

/** Blocks that follow on each other as one tally. */
function joined(blocks: readonly Tally[]): Tally {
  const [first] = blocks;
  if (first === undefined) throw new Error('no block of attempts');
  const from = Math.min(...blocks.map((b) => b.from));
  const to = Math.max(...blocks.map((b) => b.to));
  const total = newTally(first.lostOnLeg.length, from, to);
  for (const block of blocks) addTally(total, block);
  return trimTally(total);
}
