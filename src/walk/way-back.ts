import { type Attempt, type Ending, KEYS_PER_TRY } from './attempt.ts';
import { GO_BEARING, GO_LINE, JOIN, TURN_WRONG } from './mind.ts';
import type { PlannedLeg } from './planned-leg.ts';
import { search } from './search-pattern.ts';
import { COMPARE_EVERY, TURN_NOTICED } from './techniques/handrail.ts';
import { standOn } from './techniques/on-a-bearing.ts';

/** A look round for a known point that is not where it should be: what is left of the time, within these, seconds. Common practice, no source. */
const LEAST_LOOK = 300;
const LONGEST_LOOK = 1200;
/** A way back may end this long after the deadline of the task, seconds. */
const BEYOND = 3600;

/** A known point this near a line on the map is gone to along it, metres. */
const BESIDE_LINE = 40;
/** Times the straight way that a party follows a line round. Common practice, no source. */
const LONG_WAY = 1.5;

/**
 * Back to the last known point by bearing and count, set right by landmarks in view and by each sure line that is met and
 * recognised; along such a line where the point lies by it. 'arrived' when the point is recognised and not before; a line taken for
 * another leads the party to the wrong place. Walked like every leg, with a last look round.
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
  back.line = -1;
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
      const { line } = mind.verdict;
      standOn(mind, line, p.metPast);
      const right = line === senses.metLine;
      attempt.watcher?.event(right ? 'on a known line' : 'takes a line for another', body, mind, back.number);
      if (leadsToKnown(attempt, line)) return alongLine(attempt, back, line, looking);
      // taken for what it is: from here on the way is known
      mind.takeBearing(attempt.knownX, attempt.knownY);
    }
  }
  return 'unsure';
}

/** On the map the known point lies by the line, and no long way round; leaves the metres along at which it does in `toAlong` of the way back. */
function leadsToKnown(attempt: Attempt, line: number): boolean {
  const { mind } = attempt;
  const l = attempt.world.lines[line]!;
  let best = BESIDE_LINE * BESIDE_LINE;
  let found = false;
  for (let k = 0; k + 1 < l.x.length; k++) {
    const metres = l.along[k + 1]! - l.along[k]!;
    const px = attempt.knownX - l.x[k]!;
    const py = attempt.knownY - l.y[k]!;
    let past = px * l.unitX[k]! + py * l.unitY[k]!;
    past = past < 0 ? 0 : past > metres ? metres : past;
    const ex = past * l.unitX[k]! - px;
    const ey = past * l.unitY[k]! - py;
    const d = ex * ex + ey * ey;
    if (d > best) continue;
    best = d;
    found = true;
    attempt.wayBack.toAlong = l.along[k]! + past;
  }
  if (!found) return false;
  const dx = attempt.knownX - mind.belief.x;
  const dy = attempt.knownY - mind.belief.y;
  const round = Math.abs(attempt.wayBack.toAlong - mind.lineAlong);
  return round <= LONG_WAY * Math.sqrt(dx * dx + dy * dy) + BESIDE_LINE;
}

/** Along a line that the party takes for one of the map, until the known point is seen or should have been. */
function alongLine(attempt: Attempt, back: PlannedLeg, line: number, looking: boolean): Ending {
  const { body, mind, world: w, percepts: p } = attempt;
  const n = mind.navigator;
  attempt.wayBack.line = line;
  mind.lineSense = back.toAlong >= mind.lineAlong ? 1 : -1;
  mind.faceAlong();
  mind.orderFamily = w.lines[line]!.family;
  mind.leavesLine = false;
  attempt.act(JOIN);
  if (p.underfoot === 0) return 'unsure';
  mind.counted = 0;
  const limit = Math.abs(back.toAlong - mind.lineAlong) * n.overrun + 20;
  let clashes = 0;
  while (limit - mind.counted > 0.005) {
    mind.goFor(limit - mind.counted, COMPARE_EVERY);
    attempt.act(GO_LINE);
    if (body.offMap) return 'off-map';
    if (body.clock > attempt.deadline) return 'time';
    if (p.known) return 'arrived';
    if (looking && p.seen) {
      const seen = attempt.judgeSeen(back);
      if (seen !== 'unsure') return seen;
    }
    if (p.lineEnded || p.lineLost) break;
    if (p.fork !== 0 && mind.decideBy() < n.junction * p.forkFactor) attempt.act(TURN_WRONG);
    clashes = mind.agrees(p.underfootEast, p.underfootNorth, TURN_NOTICED) ? 0 : clashes + 1;
    if (clashes >= 2) break;
  }
  return 'unsure';
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
