import type { WalkAnswer, Walkers, WalkJob } from '../../../src/walk/jobs.ts';
import { mergeTallies, type Tally } from '../../../src/walk/tally.ts';
import type { FromWalker, ToWalker } from '../walker-messages.ts';

/** Work that a newer state of the task has made useless. */
export class Superseded extends Error {}

/** Jobs of a kind are dropped together; what is wanted soon goes before what waits. */
export interface Errand {
  readonly name: string;
  readonly soon: boolean;
}

interface Waiting extends Errand {
  readonly key: string;
  readonly job: WalkJob;
  readonly resolve: (answer: WalkAnswer) => void;
  readonly reject: (error: Error) => void;
}

interface Sent {
  readonly waiting: Waiting;
  /** Where it lies: at one worker, or at two of which the first counts. */
  readonly ports: MessagePort[];
}

/** Jobs that lie at a worker at once in a hurried pool: it has work while this thread is held up. */
const DEPTH = 4;

/**
 * Shares jobs out to workers behind ports as each gets done. A hurried pool waits for no worker that is held up: the others walk what
 * lies there once more, which comes to the same.
 */
export class Pool {
  private readonly ports: readonly MessagePort[];
  private readonly hurried: boolean;
  /** A port for every job that may be sent at once. */
  private readonly idle: MessagePort[] = [];
  private readonly sent = new Map<number, Sent>();
  private queue: Waiting[] = [];
  private number = 0;

  constructor(ports: readonly MessagePort[], hurried = false) {
    this.ports = ports;
    this.hurried = hurried;
    for (const port of ports) {
      port.onmessage = ({ data }: MessageEvent<FromWalker>) => this.heard(port, data);
    }
    for (let i = 0; i < (hurried ? DEPTH : 1); i++) this.idle.push(...ports);
  }

  get width(): number {
    return this.ports.length;
  }

  run(key: string, job: WalkJob, { name, soon }: Errand): Promise<WalkAnswer> {
    return new Promise((resolve, reject) => {
      const waiting = { key, job, name, soon, resolve, reject };
      const at = soon ? this.queue.findIndex((w) => !w.soon) : -1;
      this.queue.splice(at < 0 ? this.queue.length : at, 0, waiting);
      this.next();
    });
  }

  /** Drops what has not been begun, here and at the workers; what is being walked is not waited for. */
  drop(which: (errand: Errand) => boolean = () => true): void {
    const dropped = this.queue.filter(which);
    this.queue = this.queue.filter((w) => !which(w));
    for (const [number, { waiting, ports }] of this.sent) {
      if (!which(waiting)) continue;
      dropped.push(waiting);
      for (const port of ports) port.postMessage({ do: 'drop', number } satisfies ToWalker);
      this.sent.delete(number);
    }
    for (const waiting of dropped) waiting.reject(new Superseded());
  }

  private next(): void {
    while (this.idle.length > 0 && this.queue.length > 0) {
      const port = this.idle.shift()!;
      const sent: Sent = { waiting: this.queue.shift()!, ports: [] };
      this.sent.set(this.number, sent);
      send(port, this.number++, sent);
    }
  }

  private heard(port: MessagePort, message: FromWalker): void {
    const { number } = message;
    const known = this.sent.get(number);
    this.sent.delete(number);
    this.idle.push(port);
    if (known !== undefined) {
      const { waiting, ports } = known;
      for (const other of ports)
        if (other !== port) other.postMessage({ do: 'drop', number } satisfies ToWalker);
      if ('answer' in message) waiting.resolve(message.answer);
      else waiting.reject(message.fault === 'superseded' ? new Superseded() : new Error(message.fault));
    }
    this.next();
    if (this.hurried && this.queue.length === 0) this.takeOver(port);
  }

  /** A worker that has nothing left takes what was sent to another last. */
  private takeOver(port: MessagePort): void {
    let last: [number, Sent] | null = null;
    for (const [number, sent] of this.sent) {
      if (sent.ports.includes(port)) return;
      if (sent.ports.length === 1) last = [number, sent];
    }
    if (last === null) return;
    this.idle.splice(this.idle.indexOf(port), 1);
    send(port, ...last);
  }
}

function send(port: MessagePort, number: number, sent: Sent): void {
  const { key, job } = sent.waiting;
  sent.ports.push(port);
  port.postMessage({ do: 'walk', key, number, job } satisfies ToWalker);
}

/** The pool as the study knows walkers; long jobs go in pieces of so many attempts, which merge to the same tally. */
export function walkersOn(pool: Pool, key: string, piece: number): Walkers {
  return {
    run: async (job, soon = false) => {
      const errand = { name: job.do, soon };
      if (job.do !== 'simulate') return pool.run(key, job, errand);
      return simulated(pool, key, job, errand, evenPieces(job.to - job.from, piece));
    },
    close: async () => {},
  };
}

/** All attempts of a job, in pieces of the given sizes. */
export async function simulated(
  pool: Pool,
  key: string,
  job: Extract<WalkJob, { do: 'simulate' }>,
  errand: Errand,
  sizes: readonly number[],
): Promise<Tally> {
  let { from } = job;
  const pieces = sizes.map((size) => {
    const piece = { ...job, from, to: from + size };
    from += size;
    return pool.run(key, piece, errand);
  });
  return mergeTallies((await Promise.all(pieces)) as Tally[]);
}

function evenPieces(attempts: number, piece: number): number[] {
  const sizes: number[] = [];
  for (let left = attempts; left > 0; left -= piece) sizes.push(Math.min(piece, left));
  return sizes;
}

/** Large pieces first and small ones last: few messages, and all workers end together though one is held up. */
export function shrinkingPieces(attempts: number, workers: number): number[] {
  const sizes: number[] = [];
  for (let left = attempts; left > 0; left -= sizes.at(-1)!) {
    const share = Math.ceil(left / (3 * workers));
    sizes.push(Math.min(left, Math.max(LEAST_PIECE, Math.min(MOST_PIECE, share))));
  }
  return sizes;
}

/** A piece that has been begun is walked to its end, whoever waits: about 6 ms of the demo's longest route. */
const MOST_PIECE = 50;
const LEAST_PIECE = 8;
