import type { Attempt, Ending } from './attempt.ts';
import { GO_BEARING } from './mind.ts';
import type { PlannedLeg } from './planned-leg.ts';

/** Steps of a search are short: it is slow, and the look is what counts, metres. */
const PIECE = 20;
/** Forming the line and walking back to the middle takes a sweep this long, seconds. */
const FORM_LINE = 120;

/**
 * A search round the place where the party stands, within an allowance of seconds. Alone or in a bunch: an expanding square, sides
 * S, S, 2S, 2S, 3S … (IAMSAR), S the sweep width of what is looked for. `abreast` people in line: back along the way one came,
 * then once forward, a swath of as many sweep widths. Each side is a bearing and a count with their errors, so that strips that
 * should touch may gape. Ends at the find, at a known point that is looked for, or with the allowance ('unsure').
 */
export function search(
  attempt: Attempt,
  half: number,
  likes: readonly number[],
  allowance: number,
  abreast: number,
): Ending {
  const { body, mind, senses, world: w, percepts: p } = attempt;
  const leg = mind.leg;
  senses.beginSearch(leg, mind.legKey, likes, 1);
  senses.lookFarOut(false);
  const ending =
    abreast > 1 && allowance > FORM_LINE
      ? sweep(attempt, leg, likes, allowance, abreast)
      : sides(attempt, leg, Math.max(2, 2 * half), w.navigator.searchSpeed, body.clock + allowance);
  senses.lookFarOut(true);
  p.seen = false;
  return ending;
}

/** One pass in line: the middle of it is the place where the party stood. */
function sweep(
  attempt: Attempt,
  leg: PlannedLeg,
  likes: readonly number[],
  allowance: number,
  abreast: number,
): Ending {
  const { body, mind, senses, world: w } = attempt;
  const east = mind.unitX;
  const north = mind.unitY;
  const speed = w.navigator.sweepSpeed;
  const start = body.clock;
  const metres = (allowance - FORM_LINE) * speed;
  mind.turnTo(-east, -north);
  const back = side(attempt, leg, metres / 2, metres / 2 / FORM_LINE, Number.POSITIVE_INFINITY);
  if (back !== 'walked') return back;
  body.clock = start + FORM_LINE;
  senses.beginSearch(leg, mind.legKey, likes, abreast);
  mind.turnTo(east, north);
  const ahead = side(attempt, leg, metres, speed, start + allowance);
  return ahead === 'walked' ? 'unsure' : ahead;
}

function sides(attempt: Attempt, leg: PlannedLeg, spacing: number, speed: number, end: number): Ending {
  const { mind } = attempt;
  let east = mind.unitX;
  let north = mind.unitY;
  for (let k = 0; ; k++) {
    mind.turnTo(east, north);
    const ending = side(attempt, leg, spacing * (1 + (k >> 1)), speed, end);
    if (ending !== 'walked') return ending;
    const turned = north;
    north = -east;
    east = turned;
  }
}

/** Walks `metres` by count on a bearing of its own, looking. 'walked' when nothing came of it, 'unsure' when the time is up. */
function side(
  attempt: Attempt,
  leg: PlannedLeg,
  metres: number,
  speed: number,
  end: number,
): Ending | 'walked' {
  const { body, mind, senses, percepts: p } = attempt;
  body.takeBearing(mind.legKey, mind.bearingNumber++, mind.heading, true);
  senses.wake();
  let left = metres;
  while (left > 0.01) {
    const counted = left < PIECE ? left : PIECE;
    const walked = counted * body.metresPerCount;
    if (body.clock + walked / speed > end) return 'unsure';
    const before = body.clock;
    body.walk(counted, 1, false, senses.watch, 0, 0);
    body.clock = before + walked / speed;
    attempt.stepsTaken++;
    left -= counted;
    if (body.offMap) return 'off-map';
    p.counted = counted;
    const quiet = senses.quiet(p);
    mind.integrate(p, GO_BEARING);
    if (quiet) continue;
    if (p.known) return 'arrived';
    if (p.seen) {
      const seen = attempt.judgeSeen(leg);
      if (seen !== 'unsure') return seen;
    }
  }
  return 'walked';
}
