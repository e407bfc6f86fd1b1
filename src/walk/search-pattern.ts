import type { Attempt, Ending } from './attempt.ts';
import { GO_BEARING } from './mind.ts';
import type { PlannedLeg } from './planned-leg.ts';

/** Steps of a search are short: it is slow, and the look is what counts, metres. */
const PIECE = 20;
/** Forming the line and walking back to the middle takes a sweep this long, seconds. */
const FORM_LINE = 120;

/**
 * Expanding square round the place where the party stands: sides S, S, 2S, 2S, 3S … (IAMSAR), S the sweep width of what is looked
 * for times the people abreast. Each side is a bearing and a count with their errors, so that strips that should touch may gape.
 * Ends at the find, at a known point that is looked for, or with the allowance ('unsure').
 */
export function searchSquare(
  attempt: Attempt,
  half: number,
  likes: readonly number[],
  allowance: number,
  abreast: number,
): Ending {
  const { body, mind, senses, world: w, percepts: p } = attempt;
  const spacing = Math.max(2, 2 * half) * abreast;
  const speed = abreast > 1 ? w.navigator.sweepSpeed : w.navigator.searchSpeed;
  const end = body.clock + allowance;
  if (abreast > 1) body.clock += FORM_LINE;
  const leg = mind.leg;
  senses.beginSearch(leg, mind.legKey, likes, abreast);
  senses.lookFarOut(false);
  const ending = sides(attempt, leg, spacing, speed, end);
  senses.lookFarOut(true);
  p.seen = false;
  return ending;
}

function sides(attempt: Attempt, leg: PlannedLeg, spacing: number, speed: number, end: number): Ending {
  const { body, mind, senses, percepts: p } = attempt;
  // a bearing of its own for each of the four directions, turned by a right angle each time
  let east = mind.unitX;
  let north = mind.unitY;
  for (let side = 0; ; side++) {
    let left = spacing * (1 + (side >> 1));
    mind.turnTo(east, north);
    body.takeBearing(mind.legKey, mind.bearingNumber++, mind.heading);
    while (left > 0.01) {
      const counted = left < PIECE ? left : PIECE;
      const metres = counted * body.metresPerCount;
      if (body.clock + metres / speed > end) return 'unsure';
      const before = body.clock;
      body.walk(metres);
      body.clock = before + metres / speed;
      left -= counted;
      if (body.offMap) return 'off-map';
      p.counted = counted;
      const quiet = senses.quiet();
      if (quiet) senses.feel(p);
      else senses.look(p);
      mind.integrate(p, GO_BEARING);
      if (quiet) continue;
      if (p.known) return 'arrived';
      if (p.seen) {
        const seen = attempt.judgeSeen(leg);
        if (seen !== 'unsure') return seen;
      }
    }
    const turned = north;
    north = -east;
    east = turned;
  }
}
