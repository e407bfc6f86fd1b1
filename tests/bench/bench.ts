/**
 * One bench per file: `name.bench.ts` in this folder exports `bench`. `npm run bench` finds it by its name, runs it against its peer on the same
 * data, and prints the ratio of the medians. `npm run bench -- field` runs those whose file name contains "field".
 */
export interface Bench {
  readonly name: string;
  /** Least ratio peer time / our time that must hold; or the most of a plain figure, with its unit. */
  readonly must: { readonly ratio: number } | { readonly most: number; readonly unit: string };
  /** Timed rounds of each side, interleaved, after one to warm up; the median counts. 0 takes the first. */
  readonly rounds: number;
  /** Relative difference of the two checksums that is still agreement. */
  readonly agree: number;
  /** Makes the data, writes into `folder` what the peer reads, and starts the peer. */
  prepare(folder: string): Promise<Prepared>;
}

export interface BenchFile {
  readonly bench: Bench | readonly Bench[];
  /** Environment that the program gives the process in which this work runs; the peers that are libraries get the same. */
  readonly environment?: Readonly<Record<string, string>>;
}

export interface Prepared {
  /** A short word on the data: shape, counts. */
  readonly data: string;
  readonly ours: () => Round | Promise<Round>;
  /** The peer, or why it cannot run here. Absent for a bench of a plain figure. */
  readonly peer?: Peer | { readonly missing: string };
}

export interface Round {
  /** Processor seconds of the work itself, without reading and writing; or the plain figure. */
  readonly amount: number;
  /** A figure that both sides must agree on. */
  readonly checksum: number;
}

export interface Peer {
  readonly version: string;
  round(): Promise<Round>;
  stop(): void;
}

/**
 * One round of our own code. Processor time, as the peers give it: what else runs on the machine does not count. `check` makes the
 * checksum, untimed.
 */
export function timed<T>(work: () => T, check: (result: T) => number): Round {
  const start = process.cpuUsage();
  const result = work();
  const { user, system } = process.cpuUsage(start);
  return { amount: (user + system) / 1e6, checksum: check(result) };
}

/** A peer that is a library of this process. */
export function peerHere(version: string, work: () => number): Peer {
  return { version, round: async () => timed(work, (sum) => sum), stop: () => {} };
}
