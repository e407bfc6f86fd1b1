import { acceptance } from '../identify.ts';
import { ARRIVED, type Mind, UNSURE } from '../mind.ts';
import type { Percepts } from '../percepts.ts';
import type { Rule } from './rule.ts';

const OUTBOUND = 0;
const ON_TO_THE_CATCH = 1;
const BACK_FROM_THE_CATCH = 2;
/** A count that is not full is followed on this far beyond the planned length. Common practice, no source. */
const ROW_OVERRUN = 1.5;
/** Too near to the end for a new bearing to be worth its error, metres. */
const NEAR = 30;

/**
 * Walk, re-sight, stop at the count: the shape that bearing + pacing, timing, contouring, sight walking and boxing share.
 * `order` is what the body is asked for; the end, the ticks and the catching feature are the same for all.
 */
export function straightRule(order: number): Rule {
  return {
    begin(m) {
      m.takeBearing(m.leg.x[0]!, m.leg.y[0]!);
    },
    decide(m, p) {
      if (p.fix) correct(m, p);
      if (p.tick >= 0) tickOff(m, p);
      if (missesTick(m)) return UNSURE;
      if (p.metFamily !== 0) meet(m, p);
      if (p.members > 0 && countsFull(m, p)) return ARRIVED;
      let left = m.toGo * (m.leg.counts > 0 ? ROW_OVERRUN : 1) - m.counted;
      if (left <= 0.005) {
        if (m.bend + 1 < m.leg.x.length) {
          m.bend++;
          m.takeBearing(m.leg.x[m.bend]!, m.leg.y[m.bend]!);
          left = m.toGo;
        } else if (m.phase === OUTBOUND && m.leg.catching >= 0 && m.leg.toSpot >= 0) {
          // not seen at the count: go on to the line behind
          m.phase = ON_TO_THE_CATCH;
          left = m.world.stepMetres;
          m.toGo = m.counted + 150 + 2 * m.belief.sdAlong(m.unitX, m.unitY);
        } else return m.leg.toSpot >= 0 ? UNSURE : ARRIVED;
      }
      m.goFor(left, untilTickIsMissed(m));
      return order;
    },
  };
}

/** Counts members of a row; full, the party stands at the one it wants, or believes so. */
function countsFull(m: Mind, p: Percepts): boolean {
  m.members += p.members;
  if (m.members < m.leg.counts) return false;
  const spot = m.world.spots[m.leg.toSpot]!;
  m.belief.fix(spot.x, spot.y, spot.sd);
  return true;
}

/** A fix from something in view: believe it, and take the bearing anew. */
export function correct(m: Mind, p: Percepts): void {
  m.belief.blend(p.fixEast, p.fixNorth, p.fixSd);
  if (m.phase !== OUTBOUND || m.toGo - m.counted <= NEAR) return;
  m.takeBearing(m.leg.x[m.bend]!, m.leg.y[m.bend]!);
  m.sighted = true;
}

/** An expected feature is in view: once believed, the bearing is taken anew from it. */
export function tickOff(m: Mind, p: Percepts): void {
  if (!believesTick(m, p)) return;
  if (m.phase === OUTBOUND && m.toGo - m.counted > NEAR) m.takeBearing(m.leg.x[m.bend]!, m.leg.y[m.bend]!);
}

/** A feature of the tick-off list is believed to be the one expected unless it clashes; it sets the belief right. */
export function believesTick(m: Mind, p: Percepts): boolean {
  const tick = m.leg.ticks[p.tick]!;
  const spot = m.world.spots[tick.spot]!;
  const z = m.belief.clash(p.tickEast, p.tickNorth, spot.x, spot.y, spot.sd);
  if (z > 2 && m.decideBy() >= acceptance(m.navigator.lookalike, z)) return false;
  if (p.tick >= m.nextTick) m.nextTick = p.tick + 1;
  m.belief.blend(spot.x - p.tickEast, spot.y - p.tickNorth, spot.sd + 5);
  return true;
}

/** Counted metres until the next expected feature is overdue. */
function untilTickIsMissed(m: Mind): number {
  const tick = m.leg.ticks[m.nextTick];
  return tick === undefined ? Number.POSITIVE_INFINITY : 1.25 * tick.at + 25 - m.legCounted;
}

/** At a quarter beyond where a tick should have come, a party that admits it is off stops; others let it go. */
export function missesTick(m: Mind): boolean {
  if (untilTickIsMissed(m) > 0) return false;
  m.nextTick++;
  return m.decideBy() < m.navigator.admitsLost * 0.5;
}

function meet(m: Mind, p: Percepts): void {
  const { catching, ticks } = m.leg;
  if (catching >= 0 && m.phase !== BACK_FROM_THE_CATCH && familyOf(m, catching) === p.metFamily) {
    if (m.takesFor(catching, p)) {
      standOn(m, catching, p.metPast);
      m.phase = BACK_FROM_THE_CATCH;
      m.takeBearing(m.leg.x[m.bend]!, m.leg.y[m.bend]!);
      return;
    }
  }
  for (let k = m.nextTick; k < ticks.length; k++) {
    const line = ticks[k]!.line;
    if (line < 0 || familyOf(m, line) !== p.metFamily) continue;
    if (m.takesFor(line, p)) {
      m.nextTick = k + 1;
      standOn(m, line, p.metPast);
      if (m.toGo - m.counted > NEAR) m.takeBearing(m.leg.x[m.bend]!, m.leg.y[m.bend]!);
    }
    return;
  }
}

/** Believes it stands `past` metres beyond where its track meets a mapped line; keeps its doubt along the line. */
export function standOn(m: Mind, line: number, past: number): void {
  const c = m.verdict.crossing;
  const l = m.world.lines[line]!;
  if (m.verdict.line === line && c.found) {
    m.belief.fixOnLine(c.x + past * m.unitX, c.y + past * m.unitY, c.dx, c.dy, l.sd);
    m.lineAlong = c.along;
  } else m.nearestPlace(line);
}

function familyOf(m: Mind, line: number): number {
  return m.world.lines[line]!.family;
}
