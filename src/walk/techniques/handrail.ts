import { ARRIVED, GO_BEARING, GO_LINE, JOIN, type Mind, TURN_ROUND, TURN_WRONG, UNSURE } from '../mind.ts';
import type { Percepts } from '../percepts.ts';
import { cast, castOn } from './cast.ts';
import { believesTick } from './on-a-bearing.ts';
import type { Rule } from './rule.ts';

const JOINING = 0;
const FOLLOWING = 1;
const ACROSS_COUNTRY = 2;
const CASTING = 3;
const BACK_TO_THE_FORK = 4;
/** Stretch over which the run of the line is compared with the map, metres; two that clash are one clash per 100 m. */
export const COMPARE_EVERY = 50;
/** Cosine of the turn that a look at the compass shows to be no bend of this line (40°). Common practice, no source. */
export const TURN_NOTICED = 0.766;
/** A line that ends this near to where it should is taken to end there, metres. */
const END_OF_LINE = 40;
/** Stride of the bearings when the line cannot be found, metres along it. */
const STRIDE = 150;

/** Handrail: follow a line towards an end, a place or for a distance; across country by its run on the map where it is not there. */
export const handrail: Rule = {
  begin(m) {
    const { leg } = m;
    const byAim = m.cameByAimOff;
    if (!byAim) m.nearestPlace(leg.line);
    const guessed = byAim && m.aimedAtNothing;
    if (!guessed) m.lineSense = leg.toAlong >= (byAim ? m.aimAlong : m.lineAlong) ? 1 : -1;
    m.lineStart = m.lineAlong;
    m.reversed = false;
    m.compareAt = COMPARE_EVERY;
    m.faceAlong();
    m.phase = JOINING;
  },
  decide(m, p) {
    const family = m.world.lines[m.leg.line]!.family;
    if (m.phase === JOINING) {
      if (!m.asked) return join(m, family);
      m.asked = false;
      m.phase = p.underfoot === 0 ? ACROSS_COUNTRY : FOLLOWING;
      if (m.phase === ACROSS_COUNTRY) notHere(m);
      else m.hasCast = false;
    }
    if (p.tick >= 0) tickOnLine(m, p);
    if (m.phase === FOLLOWING) return alongLine(m, p);
    if (m.phase === BACK_TO_THE_FORK) return towardsFork(m, p, family);
    return offTheLine(m, p, family);
  },
};

function join(m: Mind, family: number, another = false): number {
  m.asked = true;
  m.phase = JOINING;
  m.orderFamily = family;
  m.leavesLine = another;
  return JOIN;
}

function alongLine(m: Mind, p: Percepts): number {
  const { leg } = m;
  if (p.fork !== 0 && p.fork !== m.forkKnown) {
    if (!m.cameByAimOff) m.settleAtFork();
    m.forkKey = p.fork;
    m.forkLegCounted = m.legCounted;
    m.forkCounted = m.counted;
    m.forkAlong = m.lineAlong;
    if (m.decideBy() < m.navigator.junction * p.forkFactor) return TURN_WRONG;
  }
  if (p.lineLost || p.lineEnded) {
    const left = Math.abs(leg.toAlong - m.lineAlong);
    // met by aiming off, the line gave a side only: its end is the end wherever it comes
    const near = m.cameByAimOff || left < Math.max(END_OF_LINE, 3 * m.doubtAlong(), endDoubt(m));
    if (p.lineEnded && near && (leg.toSpot < 0 || (isItsEnd(m) && !leg.toTarget))) return atTheEnd(m);
    if (p.lineEnded && !near && m.forkKey !== 0) return backToFork(m);
    if (p.lineEnded && leg.toSpot >= 0) return m.cameByAimOff && !m.reversed ? reverse(m) : UNSURE;
    m.phase = ACROSS_COUNTRY;
    notHere(m);
    return offTheLine(m, p, m.world.lines[leg.line]!.family);
  }
  if (m.legCounted >= m.compareAt) {
    m.compareAt = m.legCounted + COMPARE_EVERY;
    m.clashes = m.agrees(p.underfootEast, p.underfootNorth, TURN_NOTICED) ? 0 : m.clashes + 1;
    if (m.clashes >= 2) {
      m.clashes = 0;
      if (m.decideBy() < m.navigator.admitsLost) return m.forkKey !== 0 ? backToFork(m) : UNSURE;
    }
  }
  const limit = limitOf(m, p);
  const left = limit - m.counted;
  if (left <= 0.005) {
    if (leg.toSpot < 0) return ARRIVED;
    if (m.cameByAimOff && !m.reversed) return reverse(m);
    return UNSURE;
  }
  m.goFor(left, m.compareAt - m.legCounted + m.world.stepMetres);
  return GO_LINE;
}

/** How far to follow before something else must be done. */
function limitOf(m: Mind, p: Percepts): number {
  const { leg } = m;
  if (m.cameByAimOff && leg.toSpot >= 0) {
    const once = Math.abs(m.aimOffset) + 2 * m.sideSd + m.beyondWanted + endDoubt(m);
    return m.reversed ? 2 * once : once;
  }
  const planned = m.cameByAimOff ? leg.metres : Math.abs(leg.toAlong - m.lineStart);
  if (leg.toSpot < 0 && !endsWithTheLine(m)) return planned;
  return planned * Math.max(m.navigator.overrun, 1 + 3 * m.navigator.pace * p.paceSpread) + 20 + endDoubt(m);
}

/** The leg ends at the very end of the line that it follows. */
function isItsEnd(m: Mind): boolean {
  const spot = m.world.spots[m.leg.toSpot]!;
  return spot.line === m.leg.line && endsWithTheLine(m);
}

/** How far from its mapped place the end of the line may be, as the trade knows it: a stream that runs on, or short, metres. */
function endDoubt(m: Mind): number {
  if (!endsWithTheLine(m)) return 0;
  const l = m.world.lines[m.leg.line]!;
  const shift = m.leg.toAlong <= l.mapStart + 1 ? l.startShift : l.endShift;
  return Math.max(0, shift.mean + 2 * shift.sd);
}

/** Where the line stops the map's place is believed, however the end may have moved. */
function atTheEnd(m: Mind): number {
  m.placeOn(m.leg.line, m.leg.toAlong);
  m.belief.fix(m.placeX, m.placeY, m.world.lines[m.leg.line]!.sd);
  return ARRIVED;
}

/** A leg that goes on to where its line ends on the map needs no count to know its end. */
function endsWithTheLine(m: Mind): boolean {
  const l = m.world.lines[m.leg.line]!;
  const at = m.leg.toAlong;
  return at <= l.mapStart + 1 || at >= l.mapEnd - 1;
}

/** Unseen by offset + 2 SD: turn round, once. */
function reverse(m: Mind): number {
  m.reversed = true;
  m.wavered = true;
  m.lineSense = -m.lineSense;
  m.counted = 0;
  m.compareAt = m.legCounted + COMPARE_EVERY;
  m.faceAlong();
  return TURN_ROUND;
}

/** This is not the line: back the way one came, to where another one parted. */
function backToFork(m: Mind): number {
  m.wavered = true;
  m.phase = BACK_TO_THE_FORK;
  m.lineSense = -m.lineSense;
  m.toGo = (m.legCounted - m.forkLegCounted) * m.navigator.overrun + 30;
  m.compareAt = m.legCounted;
  return TURN_ROUND;
}

function towardsFork(m: Mind, p: Percepts, family: number): number {
  if (p.fork === m.forkKey || p.lineEnded) {
    // known again, or the branch taken ends, and it began at the fork: the other branch
    m.lineSense = -m.lineSense;
    m.lineAlong = m.forkAlong;
    m.counted = m.forkCounted;
    m.placeOn(m.leg.line, m.lineAlong);
    m.belief.fix(m.placeX, m.placeY, m.world.lines[m.leg.line]!.sd);
    m.forkKnown = m.forkKey;
    m.forkKey = 0;
    m.clashes = 0;
    m.compareAt = m.legCounted + COMPARE_EVERY;
    m.faceAlong();
    return join(m, family, true);
  }
  const left = m.toGo - (m.legCounted - m.compareAt);
  if (left <= 0.005 || p.lineLost) return UNSURE;
  m.goFor(left);
  return GO_LINE;
}

/** The line is not at hand: cast about for it, then go by its run on the map. */
function notHere(m: Mind): void {
  m.faceAlong();
  const { sd } = m.world.lines[m.leg.line]!;
  if (castOn(m, 2 * sd + 2 * m.belief.sdAlong(m.unitY, -m.unitX))) m.phase = CASTING;
  else nextStride(m);
}

function offTheLine(m: Mind, p: Percepts, family: number): number {
  if (p.metFamily === family && m.takesFor(m.leg.line, p)) {
    const along = m.lineAlong;
    m.nearestPlace(m.leg.line);
    // what was counted across country stands for the same stretch of the line
    if (m.phase === ACROSS_COUNTRY) m.counted = Math.abs(m.lineAlong - m.lineStart);
    else {
      m.lineAlong = along;
      m.counted = Math.abs(along - m.lineStart);
    }
    m.faceAlong();
    return join(m, family);
  }
  if (p.fix) m.belief.blend(p.fixEast, p.fixNorth, p.fixSd);
  if (m.phase === CASTING) {
    const order = cast(m);
    if (order !== 0) return order;
    m.phase = ACROSS_COUNTRY;
    nextStride(m);
  }
  if (m.toGo - m.counted <= 0.005) {
    if (Math.abs(m.leg.toAlong - m.lineAlong) < 1) return m.leg.toSpot >= 0 ? UNSURE : ARRIVED;
    nextStride(m);
  }
  m.goFor(m.toGo - m.counted);
  return GO_BEARING;
}

/** A bearing to the next place of the mapped line. */
function nextStride(m: Mind): void {
  const left = m.leg.toAlong - m.lineAlong;
  const by = Math.abs(left) < STRIDE * 1.3 ? left : Math.sign(left) * STRIDE;
  m.placeOn(m.leg.line, m.lineAlong + by);
  m.lineAlong += by;
  m.takeBearing(m.placeX, m.placeY);
  if (m.toGo < 0.01) m.counted = m.toGo;
}

/** An expected feature beside the line sets the count right, where the count began at a place and not at a side. */
function tickOnLine(m: Mind, p: Percepts): void {
  if (believesTick(m, p) && m.phase === FOLLOWING && !m.cameByAimOff) m.settleOnLine();
}
