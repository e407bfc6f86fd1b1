import { UNSET } from './unset.ts';

/**
 * What one step lets the party notice. Senses fill it from the true ground; the mind reads it and nothing else of the
 * truth. One object is reused for every step.
 */
export interface Percepts {
  /** Counted metres of this step (own double paces). */
  counted: number;
  /** Watch since the start, seconds. */
  clock: number;
  /** Spread multipliers the party can feel, means over the steps since the last look: how hard it is to hold a bearing, to count, to keep straight. */
  bearingSpread: number;
  paceSpread: number;
  wanderSpread: number;
  /** No marks to sight on. */
  blind: boolean;
  /** Family of a line crossed or come upon in this step, 0 none; a unit vector along it, read with error. */
  metFamily: number;
  metEast: number;
  metNorth: number;
  /** Metres counted since it was crossed, and the length of the last step as counted. */
  metPast: number;
  stepCounted: number;
  /** Family of the line underfoot, 0 none; a unit vector the way it is walked. */
  underfoot: number;
  underfootEast: number;
  underfootNorth: number;
  lineEnded: boolean;
  lineLost: boolean;
  /** A place with a choice of lines was reached on the line underfoot; a number that keys the choice. */
  fork: number;
  /** How much harder than usual the choice is in this light and air. */
  forkFactor: number;
  /** Something like what is looked for is in view: where it lies from the party. `sure` when it is recognised beyond doubt. */
  seen: boolean;
  seenEast: number;
  seenNorth: number;
  seenSure: boolean;
  /** True when it could be the target, false when it could be the end of the leg. */
  seenAsTarget: boolean;
  /** Key of the thing seen, so that one decides once about one thing. */
  seenKey: number;
  /** A member of the tick-off list in view (index in the leg's list), −1 none. */
  tick: number;
  tickEast: number;
  tickNorth: number;
  /** Members of the row being counted that were noticed in this step. */
  members: number;
  /** The known point that a way back leads to is recognised. */
  known: boolean;
  /** A landmark recognised from afar, and where the party must be by it. */
  fix: boolean;
  fixEast: number;
  fixNorth: number;
  fixSd: number;
}

export function newPercepts(): Percepts {
  return {
    counted: UNSET,
    clock: UNSET,
    bearingSpread: UNSET,
    paceSpread: UNSET,
    wanderSpread: UNSET,
    blind: false,
    metFamily: 0,
    metEast: UNSET,
    metNorth: UNSET,
    metPast: UNSET,
    stepCounted: UNSET,
    underfoot: 0,
    underfootEast: UNSET,
    underfootNorth: UNSET,
    lineEnded: false,
    lineLost: false,
    fork: 0,
    forkFactor: UNSET,
    seen: false,
    seenEast: UNSET,
    seenNorth: UNSET,
    seenSure: false,
    seenAsTarget: false,
    seenKey: 0,
    tick: -1,
    tickEast: UNSET,
    tickNorth: UNSET,
    members: 0,
    known: false,
    fix: false,
    fixEast: UNSET,
    fixNorth: UNSET,
    fixSd: UNSET,
  };
}
