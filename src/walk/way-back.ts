import { type Attempt, type Ending, KEYS_PER_TRY } from './attempt.ts';
import { GO_BEARING } from './mind.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { search } from './search-pattern.ts';
import { standOn } from './techniques/on-a-bearing.ts';

/** A look round for a known point that is not where it should be: what is left of the time, within these, seconds. Common practice, no source. */
const LEAST_LOOK = 300;
const LONGEST_LOOK = 1200;
/** A way back may end this long after the deadline of the task, seconds. */
const BEYOND = 3600;

/**
 * Back to the last known point by bearing and count, set right by landmarks in view and by each sure line that is met and
 * recognised. 'arrived' when the point is recognised, or when the party stands on a line that it takes for what it is and so
 * knows where it is; a line taken for another leads it on to the wrong place. Walked like every leg, with a last look round.
 * `looking`: the target is still wanted and is taken if it comes in view.
 */
export function goBack(attempt: Attempt, looking: boolean): Ending {
  const { body, mind, senses, world: w, percepts: p } = attempt;
  const dx = attempt.knownX - mind.belief.x;
  const dy = attempt.knownY - mind.belief.y;
  attempt.watcher?.event('turns back', body, mind, attempt.legs.length - 1);
  const number = KEYS_PER_TRY - 5 + attempt.tries * KEYS_PER_TRY;
  const back = attempt.wayBack;
  back.number = number;
  back.metres = Math.sqrt(dx * dx + dy * dy);
  back.x[0] = attempt.knownX;
  back.y[0] = attempt.knownY;
  mind.beginLeg(back, number);
  mind.cameByAimOff = false;
  body.beginLeg(number, back.metres);
  senses.beginLeg(back, number, looking ? w.onlyTarget : NOTHING);
  senses.lookForKnown(attempt.knownSpot, attempt.knownTrueX, attempt.knownTrueY);
  mind.takeBearing(attempt.knownX, attempt.knownY);
  p.seen = false;
  attempt.deadline = Math.max(attempt.deadline, body.clock + BEYOND);
  let ending = walkBack(attempt, back, looking);
  if (ending === 'unsure') {
    attempt.watcher?.event('looks round for the known point', body, mind, attempt.knownLeg);
    const half = attempt.knownSpot >= 0 ? w.spots[attempt.knownSpot]!.halfLow : 25;
    const left = Math.max(LEAST_LOOK, Math.min(LONGEST_LOOK, w.limitSeconds - body.clock));
    ending = search(attempt, Math.max(15, half), looking ? w.onlyTarget : NOTHING, left, 1);
  }
  senses.lookForNothingKnown();
  if (ending === 'arrived') regain(attempt);
  return ending;
}

const NOTHING: readonly number[] = [];

function walkBack(attempt: Attempt, back: PlannedLeg, looking: boolean): Ending {
  const { body, mind, senses, percepts: p } = attempt;
  let onKnownLine = false;
  while (mind.toGo - mind.counted > 0.005) {
    mind.goFor(mind.toGo - mind.counted);
    attempt.act(GO_BEARING);
    if (body.offMap) return 'off-map';
    if (body.clock > attempt.deadline) return 'time';
    if (p.known) return 'arrived';
    if (looking && p.seen) {
      const seen = attempt.judgeSeen(back);
      if (seen !== 'unsure') return seen;
    }
    if (p.fix) {
      mind.belief.blend(p.fixEast, p.fixNorth, p.fixSd);
      mind.takeBearing(attempt.knownX, attempt.knownY);
      mind.sighted = true;
    } else if (p.metFamily !== 0 && mind.recognisesLine(p)) {
      const line = mind.verdict.line;
      standOn(mind, line, p.metPast);
      // taken for what it is: from here on the way is known, along it or from it
      onKnownLine = line === senses.metLine;
      mind.takeBearing(attempt.knownX, attempt.knownY);
      attempt.watcher?.event(
        onKnownLine ? 'on a known line' : 'takes a line for another',
        body,
        mind,
        back.number,
      );
    }
  }
  return onKnownLine ? 'arrived' : 'unsure';
}

/** Goes up to the known point and believes it stands there. */
function regain(attempt: Attempt): void {
  const { body, mind } = attempt;
  const dx = attempt.knownTrueX - body.x;
  const dy = attempt.knownTrueY - body.y;
  body.approach(attempt.knownTrueX, attempt.knownTrueY, Math.sqrt(dx * dx + dy * dy));
  mind.belief.fix(attempt.knownX, attempt.knownY, 10);
  attempt.watcher?.event('back at a known point', body, mind, attempt.knownLeg);
}
