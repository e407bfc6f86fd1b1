import type { Attempt, Ending } from './attempt.ts';
import { GO_STRAIGHT } from './mind.ts';

/** Steps of a search are short: it is slow, and the look is what counts, metres. */
const PIECE = 20;
/** Forming the line and walking back to the middle takes a sweep this long, seconds. */
const FORM_LINE = 120;

/**
 * Expanding square round the place where the party stands: sides S, S, 2S, 2S, 3S … (IAMSAR), S the sweep width of what is
 * looked for times the people abreast. Ends at the find or with the allowance.
 */
export function searchSquare(
  attempt: Attempt,
  spot: number,
  likes: readonly number[],
  allowance: number,
  abreast: number,
): Ending {
  const { body, mind, senses, world: w, percepts: p } = attempt;
  const searched = w.spots[spot]!;
  const half = body.air === w.high ? searched.halfHigh : searched.halfLow;
  const spacing = Math.max(2, 2 * half) * abreast;
  const speed = abreast > 1 ? w.navigator.sweepSpeed : w.navigator.searchSpeed;
  const end = body.clock + allowance;
  if (abreast > 1) body.clock += FORM_LINE;
  const leg = mind.leg;
  senses.beginSearch(leg, mind.legKey, likes, abreast);
  let heading = mind.heading;
  for (let side = 0; ; side++) {
    let left = spacing * (1 + (side >> 1));
    mind.face(heading);
    body.point(heading);
    while (left > 0.01) {
      const metres = left < PIECE ? left : PIECE;
      if (body.clock + metres / speed > end) return 'unsure';
      const before = body.clock;
      body.walkStraight(metres);
      body.clock = before + metres / speed;
      left -= metres;
      if (body.offMap) return 'off-map';
      p.counted = metres;
      senses.look(p);
      mind.integrate(p, GO_STRAIGHT);
      mind.belief.x += mind.unitX * metres;
      mind.belief.y += mind.unitY * metres;
      if (p.seen) {
        const seen = attempt.judgeSeen(leg);
        if (seen !== 'unsure') return seen;
      }
    }
    heading += Math.PI / 2;
  }
}
