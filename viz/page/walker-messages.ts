import type { WalkAnswer, WalkJob } from '../../src/walk/jobs.ts';
import type { World } from '../../src/walk/world.ts';

/* What walkers and those who send them say to each other. */

export type ToWalker =
  | { readonly do: 'world'; readonly key: string; readonly world: World }
  | { readonly do: 'walk'; readonly key: string; readonly number: number; readonly job: WalkJob }
  | { readonly do: 'drop'; readonly number: number };

export type FromWalker =
  | { readonly number: number; readonly answer: WalkAnswer }
  | { readonly number: number; readonly fault: string };

/** Said to a walker by the page itself: another way to it, or whether what is not urgent may be walked now. */
export type FromPage = WalkerPort | { readonly waits: boolean };

/** A way to a walker; what comes over rank 0 is walked first. */
export interface WalkerPort {
  readonly port: MessagePort;
  readonly rank: 0 | 1;
}
