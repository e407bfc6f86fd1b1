import { ln } from '../math/portable.ts';
import { advance, atEnd, progressFrom } from './advance.ts';
import { knownTo, type PlaceDoubt } from './doubt-of-place.ts';
import { estimateFrom } from './estimate.ts';
import { routeFigures } from './figures.ts';
import type { Leg } from './leg.ts';
import type { Planning } from './planning.ts';

/** A few legs from one known place to the next, with what they cost a party that knows where it begins. */
export interface Piece {
  readonly legs: readonly Leg[];
  readonly minutes: number;
  /** −ln of the share of parties that get through. */
  readonly loss: number;
  /** What a party knows of its place afterwards. */
  readonly doubt: PlaceDoubt;
  /** Ends at the target. */
  readonly last: boolean;
}

/** A place known to so much begins a piece without a doubt worth carrying, metres. */
export const KNOWN = 12;
/** Shares below this are no plan. */
const LEAST_SHARE = 1e-4;

export function pieceOf(planning: Planning, legs: readonly Leg[], last: boolean): Piece {
  const minutes = routeFigures(legs, planning.walking).minutes;
  const { share, doubt, extraMinutes } = throughPiece(planning, legs, last, knownTo(KNOWN));
  return { legs, minutes: minutes + extraMinutes, loss: lossOf(share), doubt, last };
}

export function lossOf(share: number): number {
  return -ln(Math.max(share, LEAST_SHARE));
}

/** The share of parties that get through a piece when they begin it with a given doubt, and what they know afterwards. */
export function throughPiece(
  planning: Planning,
  legs: readonly Leg[],
  last: boolean,
  doubt: PlaceDoubt,
): { share: number; doubt: PlaceDoubt; extraMinutes: number } {
  if (last) return estimateFrom(planning, legs, doubt);
  const state = progressFrom(doubt);
  legs.forEach((leg, i) => {
    advance(leg, state, planning);
    atEnd(leg, legs[i + 1], state, planning);
  });
  return { share: Math.min(1, state.share), doubt: state.doubt, extraMinutes: state.extraMinutes };
}
