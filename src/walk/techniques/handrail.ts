import { cos, sin } from '../../math/portable.ts';
import { turnBetween } from '../identify.ts';
import { ARRIVED, GO_BEARING, GO_LINE, JOIN, type Mind, TURN_WRONG, UNSURE } from '../mind.ts';
import type { Percepts } from '../percepts.ts';
import { believesTick } from './on-a-bearing.ts';
import type { Rule } from './rule.ts';

const JOINING = 0;
const FOLLOWING = 1;
const ACROSS_COUNTRY = 2;
/** Stretch over which the run of the line is compared with the map, metres, and the turn that is noticed. */
const COMPARE_EVERY = 60;
const TURN_NOTICED = 1;
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
    m.face(m.mapLineHeading());
    m.phase = JOINING;
  },
  decide(m, p) {
    const family = m.world.lines[m.leg.line]!.family;
    if (m.phase === JOINING) {
      if (!m.asked) {
        m.asked = true;
        m.orderFamily = family;
        return JOIN;
      }
      m.asked = false;
      m.phase = p.underfoot === 0 ? ACROSS_COUNTRY : FOLLOWING;
      if (m.phase === ACROSS_COUNTRY) nextStride(m);
    }
    if (p.tick >= 0) tickOnLine(m, p);
    return m.phase === FOLLOWING ? alongLine(m, p) : acrossCountry(m, p, family);
  },
};

function alongLine(m: Mind, p: Percepts): number {
  const { leg } = m;
  if (p.fork !== 0) {
    if (m.decideBy() < m.navigator.junction * p.forkFactor) return TURN_WRONG;
    if (!m.cameByAimOff) m.settleAtFork();
  }
  if (p.lineLost || p.lineEnded) {
    const left = Math.abs(leg.toAlong - m.lineAlong);
    if (p.lineEnded && leg.toSpot < 0 && left < Math.max(END_OF_LINE, 3 * doubtAlong(m))) return ARRIVED;
    if (p.lineEnded && leg.toSpot >= 0 && !m.reversed && m.cameByAimOff) return reverse(m);
    if (p.lineEnded && leg.toSpot >= 0) return UNSURE;
    m.phase = ACROSS_COUNTRY;
    nextStride(m);
    return acrossCountry(m, p, m.world.lines[leg.line]!.family);
  }
  if (m.legCounted >= m.compareAt) {
    m.compareAt = m.legCounted + COMPARE_EVERY;
    const off = turnBetween(p.underfootDirection, m.mapLineHeading());
    m.clashes = off > TURN_NOTICED ? m.clashes + 1 : 0;
    if (m.clashes >= 2 && m.decideBy() < m.navigator.admitsLost) return UNSURE;
  }
  const limit = limitOf(m, p);
  const left = limit - m.counted;
  if (left <= 0.005) {
    if (leg.toSpot < 0) return ARRIVED;
    if (m.cameByAimOff && !m.reversed) return reverse(m);
    return UNSURE;
  }
  m.orderMetres = Math.min(left, m.world.stepMetres);
  return GO_LINE;
}

/** How far to follow before something else must be done. */
function limitOf(m: Mind, p: Percepts): number {
  const { leg } = m;
  if (m.cameByAimOff && leg.toSpot >= 0) {
    const once = Math.abs(m.aimOffset) + 2 * m.sideSd + m.beyondWanted;
    return m.reversed ? 2 * once : once;
  }
  const planned = m.cameByAimOff ? leg.metres : Math.abs(leg.toAlong - m.lineStart);
  if (leg.toSpot < 0 && !endsWithTheLine(m)) return planned;
  return planned * Math.max(m.navigator.overrun, 1 + 3 * m.navigator.pace * p.paceSpread) + 20;
}

/** A leg that goes on to where its line ends on the map needs no count to know its end. */
function endsWithTheLine(m: Mind): boolean {
  const l = m.world.lines[m.leg.line]!;
  const at = m.leg.toAlong;
  return at <= l.mapStart + 1 || at >= l.mapEnd - 1;
}

/** SD of the believed place along the line underfoot, metres. */
function doubtAlong(m: Mind): number {
  const heading = m.mapLineHeading();
  return m.belief.sdAlong(sin(heading), cos(heading));
}

/** Unseen by offset + 2 SD: turn round, once. */
function reverse(m: Mind): number {
  m.reversed = true;
  m.wavered = true;
  m.lineSense = -m.lineSense;
  m.counted = 0;
  m.compareAt = m.legCounted + COMPARE_EVERY;
  m.face(m.mapLineHeading());
  m.phase = JOINING;
  m.asked = true;
  m.orderFamily = m.world.lines[m.leg.line]!.family;
  return JOIN;
}

function acrossCountry(m: Mind, p: Percepts, family: number): number {
  if (p.metFamily === family && m.takesFor(m.leg.line, p)) {
    m.nearestPlace(m.leg.line);
    m.face(m.mapLineHeading());
    m.phase = JOINING;
    m.asked = true;
    m.orderFamily = family;
    // what was counted across country stands for the same stretch of the line
    m.counted = Math.abs(m.lineAlong - m.lineStart);
    return JOIN;
  }
  if (p.fix) m.belief.blend(p.fixEast, p.fixNorth, p.fixSd);
  if (m.toGo - m.counted <= 0.005) {
    if (Math.abs(m.leg.toAlong - m.lineAlong) < 1) return m.leg.toSpot >= 0 ? UNSURE : ARRIVED;
    nextStride(m);
  }
  m.orderMetres = Math.min(m.toGo - m.counted, m.world.stepMetres);
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
