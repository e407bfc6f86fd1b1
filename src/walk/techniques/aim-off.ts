import { ARRIVED, GO_BEARING, UNSURE } from '../mind.ts';
import { correct, standOn, tickOff } from './on-a-bearing.ts';
import type { Rule } from './rule.ts';

/** Aiming off: a bearing to one side of what is wanted, walked until the line is met. It gives a side, not a place to pace from. */
export const aimOff: Rule = {
  begin(m) {
    m.takeBearing(m.leg.x[0]!, m.leg.y[0]!);
    // no offset says nothing of the side: half of the parties guess wrong
    if (m.leg.offset === 0) m.lineSense = m.decideBy() < 0.5 ? 1 : -1;
  },
  decide(m, p) {
    if (p.fix) correct(m, p);
    if (p.tick >= 0) tickOff(m, p);
    const wanted = m.leg.line;
    const family = m.world.lines[wanted]!.family;
    if (p.metFamily === family) {
      if (m.takesFor(wanted, p)) {
        standOn(m, wanted, 0);
        m.sideSd = m.doubtAlong();
        m.cameByAimOff = true;
        return ARRIVED;
      }
      if (m.verdict.line >= 0) {
        // a line it knows, not the one it wants: now it knows better how far it has come
        standOn(m, m.verdict.line, p.metPast);
        m.takeBearing(m.leg.x[0]!, m.leg.y[0]!);
      }
    }
    const slack = Math.max(m.navigator.overrun, 1 + 3 * m.navigator.pace * p.paceSpread);
    const left = m.toGo * slack + 10 - m.counted;
    if (left <= 0.005) return UNSURE;
    m.goFor(left);
    return GO_BEARING;
  },
};
