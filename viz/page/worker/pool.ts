import type { Route } from '../../../src/route/leg.ts';
import type { WalkAnswer, Walkers, WalkJob } from '../../../src/walk/jobs.ts';
import { addTally, newTally, type Tally, trimTally } from '../../../src/walk/tally.ts';
import type { FromWalker, ToWalker } from '../messages.ts';

/** Attempts per message: what is dragged meanwhile waits for no more than this. */
const PIECE = 200;

/** Work that a newer state of the task has made useless. */
export class Superseded extends Error {}

interface Waiting {
  readonly key: string;
  readonly job: WalkJob;
  readonly resolve: (answer: WalkAnswer) => void;
  readonly reject: (error: Error) => void;
}

/** Shares jobs out to workers behind ports, one at a time each. */
export class Pool {
  private readonly idle: MessagePort[] = [];
  private readonly busy = new Map<number, Waiting>();
  private queue: Waiting[] = [];
  private number = 0;
  readonly size: number;

  constructor(ports: readonly MessagePort[]) {
    this.size = ports.length;
    for (const port of ports) {
      this.idle.push(port);
      port.onmessage = ({ data }: MessageEvent<FromWalker>) => this.heard(port, data);
    }
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
      const port = this.idle.pop()!;
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

/** The pool as the study knows walkers; long jobs go in pieces, which merge to the same tally. */
export function walkersOn(pool: Pool, key: string): Walkers {
  return {
    run: async (job) => {
      if (job.do !== 'simulate') return pool.run(key, job);
      const { route, seed, from, to } = job;
      return inPieces(route, seed, from, to, (piece) => pool.run(key, piece) as Promise<Tally>);
    },
    close: async () => {},
  };
}

async function inPieces(
  route: Route,
  seed: number,
  from: number,
  to: number,
  run: (job: WalkJob) => Promise<Tally>,
): Promise<Tally> {
  const pieces: Promise<Tally>[] = [];
  for (let at = from; at < to; at += PIECE) {
    pieces.push(run({ do: 'simulate', route, seed, from: at, to: Math.min(to, at + PIECE) }));
  }
  return joined(await Promise.all(pieces));
}

/** Blocks that follow on each other as one tally. */
export function joined(blocks: readonly Tally[]): Tally {
  const [first] = blocks;
  if (first === undefined) throw new Error('no block of attempts');
  const from = Math.min(...blocks.map((b) => b.from));
  const to = Math.max(...blocks.map((b) => b.to));
  const total = newTally(first.lostOnLeg.length, from, to);
  for (const block of blocks) addTally(total, block);
  return trimTally(total);
}
