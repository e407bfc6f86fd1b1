import { addHistogram, countSeconds, type Histogram, newHistogram, trimHistogram } from '../math/quantile.ts';
import type { AttemptResult } from './attempt.ts';
import { nearMissMetres } from './senses.ts';
import type { World } from './world.ts';

/** Order of the outcome counts; the names and their precedence are the report's. */
export const CLEAN_HIT = 0;
export const FOUND_BY_SEARCH = 1;
export const LATE = 2;
export const FALSE_FIND = 3;
export const LOST = 4;
export const TURNED_BACK = 5;
export const NEAR_MISS = 6;
export const OUTCOME_COUNT = 7;

/** End points kept to be drawn. */
export const KEPT_ENDS = 50;

/** What a block of trials came to. Sums only, so that blocks merge to the same total in any order. */
export interface Tally {
  from: number;
  to: number;
  readonly outcomes: Uint32Array;
  hazard: number;
  /** Time of every attempt, and of the finds. */
  allSeconds: Histogram;
  foundSeconds: Histogram;
  metres: number;
  /** Attempts without a find by the leg on which they went wrong. */
  readonly lostOnLeg: Uint32Array;
  /** Per trial of the block: its outcome, and its whole seconds, for paired differences. */
  outcomeOf: Uint8Array;
  secondsOf: Uint16Array;
  /** First end points: east, north, outcome. */
  ends: number[];
}

export function newTally(legs: number, from: number, to: number): Tally {
  return {
    from,
    to,
    outcomes: new Uint32Array(OUTCOME_COUNT),
    hazard: 0,
    allSeconds: newHistogram(),
    foundSeconds: newHistogram(),
    metres: 0,
    lostOnLeg: new Uint32Array(Math.max(1, legs)),
    outcomeOf: new Uint8Array(to - from),
    secondsOf: new Uint16Array(to - from),
    ends: [],
  };
}

/** The one class that an attempt falls in; precedence from the top of the list. */
export function outcomeOf(world: World, r: AttemptResult): number {
  const target = world.spots[world.target]!;
  if (r.found && r.seconds > world.limitSeconds) return LATE;
  if (r.found) return r.wavered ? FOUND_BY_SEARCH : CLEAN_HIT;
  if (r.falseFind) return FALSE_FIND;
  if (r.astray) return LOST;
  if (r.regained) return TURNED_BACK;
  return r.nearest <= nearMissMetres(target.halfLow) ? NEAR_MISS : LOST;
}

export function countAttempt(tally: Tally, world: World, trial: number, r: AttemptResult): void {
  const outcome = outcomeOf(world, r);
  const i = trial - tally.from;
  tally.outcomes[outcome]!++;
  if (r.hazard) tally.hazard++;
  tally.allSeconds = countSeconds(tally.allSeconds, r.seconds);
  const hit = outcome === CLEAN_HIT || outcome === FOUND_BY_SEARCH;
  if (hit) tally.foundSeconds = countSeconds(tally.foundSeconds, r.seconds);
  else tally.lostOnLeg[r.lostOnLeg]!++;
  tally.metres += Math.round(r.metres);
  tally.outcomeOf[i] = outcome;
  tally.secondsOf[i] = Math.min(65535, Math.round(r.seconds));
  if (trial < KEPT_ENDS) tally.ends.push(r.x, r.y, outcome);
}

/** Adds a block of trials to the whole that it is a part of, in any order of the blocks. */
export function addTally(total: Tally, block: Tally): void {
  for (let k = 0; k < OUTCOME_COUNT; k++) total.outcomes[k]! += block.outcomes[k]!;
  for (let k = 0; k < total.lostOnLeg.length; k++) total.lostOnLeg[k]! += block.lostOnLeg[k]!;
  total.hazard += block.hazard;
  total.metres += block.metres;
  total.allSeconds = addHistogram(total.allSeconds, block.allSeconds);
  total.foundSeconds = addHistogram(total.foundSeconds, block.foundSeconds);
  total.outcomeOf.set(block.outcomeOf, block.from - total.from);
  total.secondsOf.set(block.secondsOf, block.from - total.from);
  // three numbers an end, kept in order of the trials
  for (let k = 0; k < block.ends.length; k += 3) {
    const at = 3 * (block.from - total.from) + k;
    for (let j = 0; j < 3; j++) total.ends[at + j] = block.ends[k + j]!;
  }
}

/** The tally with its histograms cut to what they hold: small enough to be kept and posted by the thousand. */
export function trimTally(tally: Tally): Tally {
  tally.allSeconds = trimHistogram(tally.allSeconds);
  tally.foundSeconds = trimHistogram(tally.foundSeconds);
  return tally;
}

/** Attempts that count as success. */
export function hitsOf(tally: Tally): number {
  return tally.outcomes[CLEAN_HIT]! + tally.outcomes[FOUND_BY_SEARCH]!;
}

/** Joins the blocks of one route into one, in any order. */
export function mergeTallies(blocks: readonly Tally[]): Tally {
  const from = Math.min(...blocks.map((b) => b.from));
  const to = Math.max(...blocks.map((b) => b.to));
  const total = newTally(blocks[0]!.lostOnLeg.length, from, to);
  for (const block of blocks) addTally(total, block);
  return trimTally(total);
}
