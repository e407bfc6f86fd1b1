import { median } from 'simple-statistics';
import type { Route } from '../route/leg.ts';
import type { Walkers } from '../walk/jobs.ts';
import { CLEAN_HIT, FOUND_BY_SEARCH, type Tally } from '../walk/tally.ts';

/** A route in a race, with its attempts so far: trial k of every runner is the same party on the same day and ground. */
export interface Runner {
  readonly route: Route;
  /** Stays to the end whatever happens: what others are measured by. */
  readonly stays: boolean;
  /** Per attempt: 1 for a find, and its seconds. */
  readonly hit: number[];
  readonly seconds: number[];
}

export function runnerOf(route: Route, stays = false): Runner {
  return { route, stays, hit: [], seconds: [] };
}

/** Attempts that each runner still in the race has walked after a round, and how many may go on. */
export interface Round {
  readonly attempts: number;
  readonly goOn: number;
}

/** Sign test at which a runner is out: about one in a thousand by chance, since dozens are compared. */
const CLEARLY = 3;

/**
 * Spends attempts where the unbeaten set is undecided. After each round a runner leaves that another beats clearly, in a paired sign
 * test of finds, at no more median minutes (racing, Maron & Moore 1994, "Hoeffding races", with a paired test in place of
 * Hoeffding's bound); of the rest at most `goOn` are walked further (sequential halving, Karnin, Koren & Somekh 2013).
 * Screening only: what it finds is walked again on fresh seeds before any figure is shown.
 *
 * @returns every runner, those that came farthest first, the better ones before the worse.
 */
export async function race(
  walkers: Walkers,
  runners: readonly Runner[],
  seed: number,
  rounds: readonly Round[],
): Promise<Runner[]> {
  let running = [...runners];
  const out: Runner[][] = [];
  for (const { attempts, goOn } of rounds) {
    await Promise.all(running.map((runner) => walkOn(walkers, runner, seed, attempts)));
    const order = ranked(running);
    const unbeaten = order.filter((r) => !order.some((other) => beats(other, r)));
    const staying = order.filter((r) => r.stays);
    const others = unbeaten.filter((r) => !r.stays).slice(0, goOn);
    const left = order.filter((r) => staying.includes(r) || others.includes(r));
    out.unshift(order.filter((r) => !left.includes(r)));
    running = left;
  }
  return [...running, ...out.flat()];
}

async function walkOn(walkers: Walkers, runner: Runner, seed: number, to: number): Promise<void> {
  const from = runner.hit.length;
  if (from >= to) return;
  // the race decides what is walked after it, so nothing else comes before it
  const tally = (await walkers.run({ do: 'simulate', route: runner.route, seed, from, to }, true)) as Tally;
  for (let i = 0; i < to - from; i++) {
    const outcome = tally.outcomeOf[i]!;
    runner.hit.push(outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH ? 1 : 0);
    runner.seconds.push(tally.secondsOf[i]!);
  }
}

/** Clearly more finds in the attempts that both have walked, at no more median minutes. */
export function beats(a: Runner, b: Runner, clearly = CLEARLY): boolean {
  return signTest(a, b) > clearly && medianSeconds(a) <= medianSeconds(b);
}

/** (n₊ − n₋)/√(n₊ + n₋) of the attempts in which only one of the two found the target; 0 where there are none. */
export function signTest(a: Runner, b: Runner): number {
  const n = Math.min(a.hit.length, b.hit.length);
  let only = 0;
  let other = 0;
  for (let i = 0; i < n; i++) {
    if (a.hit[i]! > b.hit[i]!) only++;
    else if (a.hit[i]! < b.hit[i]!) other++;
  }
  return only + other === 0 ? 0 : (only - other) / Math.sqrt(only + other);
}

export function shareOf(runner: Runner): number {
  const n = runner.hit.length;
  return n === 0 ? 0 : runner.hit.reduce((sum, h) => sum + h, 0) / n;
}

export function medianSeconds(runner: Runner): number {
  return runner.seconds.length === 0 ? Number.POSITIVE_INFINITY : median(runner.seconds);
}

/** One find more of a hundred is worth as many seconds of the median; less saves no route from being beaten. Common practice, no source. */
const SECONDS_PER_FIND = 15;

/** Of the share of the surest: a route that finds less is no way to the target, however quick it is to fail. Common practice, no source. */
const HOPELESS = 0.25;

interface Standing {
  readonly runner: Runner;
  readonly i: number;
  readonly share: number;
  readonly median: number;
}

/**
 * Layer by layer of those that none left beats: none finds as many in less time, nor so many more that the time does not count.
 * Within a layer the surest first; the hopeless last.
 */
export function ranked(runners: readonly Runner[]): Runner[] {
  const standings = runners.map(
    (runner, i): Standing => ({ runner, i, share: shareOf(runner), median: medianSeconds(runner) }),
  );
  const least = HOPELESS * Math.max(...standings.map((s) => s.share));
  return [
    ...layered(standings.filter((s) => s.share >= least)),
    ...layered(standings.filter((s) => s.share < least)),
  ];
}

function layered(standings: readonly Standing[]): Runner[] {
  let left = standings;
  const order: Runner[] = [];
  while (left.length > 0) {
    const layer = left.filter(
      (r) =>
        !left.some((o) => {
          const more = 100 * (o.share - r.share);
          return (
            more >= 0 && o.median <= r.median + SECONDS_PER_FIND * more && (more > 0 || o.median < r.median)
          );
        }),
    );
    layer.sort((a, b) => b.share - a.share || a.median - b.median || a.i - b.i);
    for (const { runner } of layer) order.push(runner);
    left = left.filter((r) => !layer.includes(r));
  }
  return order;
}

/** The quickest is looked for among so many of the best. */
const AMONG = 8;

/** The first by rank, and among them the quickest of those that went as far: a change may make a quick way a sure one too. */
export function leading(order: readonly Runner[], count: number): Runner[] {
  const among = order.slice(0, AMONG);
  const quickest = among.reduce<Runner | undefined>(
    (a, b) => (a === undefined || medianSeconds(b) < medianSeconds(a) ? b : a),
    undefined,
  );
  const first = among.slice(0, count);
  if (quickest === undefined || first.includes(quickest)) return first;
  return [...first.slice(0, count - 1), quickest];
}

/** Of two near-duplicates that went equally far in the race, the quicker one stands for both unless the other clearly finds more. */
export function isQuickerTwin(runner: Runner, twin: Runner, clearly: number): boolean {
  if (runner.hit.length < twin.hit.length) return false;
  return medianSeconds(runner) < medianSeconds(twin) && signTest(twin, runner) < clearly;
}
