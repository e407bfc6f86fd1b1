import { describe, expect, test } from 'vitest';
import { defaultDoubt } from '../../src/features/doubt.ts';
import { distance, type Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { within } from '../scenarios/walked.ts';
import { benchParty, benchWorld, CERTAIN, leg, line, route, spot } from './plain-ground.ts';

/*
 * A wrong turn on a handrail: the compass shows that the line runs another way than the map says, or it ends where it should not, and
 * the party goes back to where the other line parted. That people do so is common practice, no published source. Lengths are geometry: the run of the line
 * is compared every 50 m, two clashes are enough for a party that admits them.
 */
const START: Point = [0, -600];
const FORK: Point = [0, 0];
const STRAIGHT: readonly Point[] = [START, FORK, [0, 600]];
/** Nothing errs but what a test lets err. */
const SURE: Partial<Skill> = {
  paceShare: 0,
  handrailLossPerKm: 0,
  speedShare: 0,
  admitsLostShare: 1,
  junctionShare: 1,
};
/** A place of the line network lies to 8 m along its line, and a fork is come upon from 12 m: 3 SD and that. */
const FORK_DOUBT = 3 * 8 + 12;

interface Walked {
  readonly wrongTurns: number;
  readonly wentBack: number;
  readonly found: boolean;
  readonly wavered: boolean;
  readonly metres: number;
}

/** Walks a way to its end, with another path that parts from it at (0, 0). */
function walk(
  way: readonly Point[],
  other: readonly Point[],
  set: Partial<Skill>,
  trials: number,
): { all: Walked[]; wrong: Walked[] } {
  const start = way[0]!;
  const end = way[way.length - 1]!;
  const target = spot('target', 'boulder', end, { ...CERTAIN, sweepWidthMetres: 10 });
  const world = benchWorld({
    features: [line('way', 'path', [...way], CERTAIN), line('other', 'path', [...other], CERTAIN), target],
    start,
    target,
    party: benchParty('competent', { ...SURE, ...set }),
  });
  const plan = route(leg('handrail', start, end, { line: 'way', path: [...way], toFeature: 'target' }));
  const attempt = new Attempt(world, planLegs(world, plan));
  let wrongTurns = 0;
  let wentBack = 0;
  attempt.watcher = {
    event(kind) {
      if (kind === 'wrong turn') wrongTurns++;
      if (kind === 'turns round') wentBack++;
    },
  };
  const all = Array.from({ length: trials }, (_, trial) => {
    wrongTurns = 0;
    wentBack = 0;
    const { found, wavered, metres } = attempt.run(1, trial);
    return { wrongTurns, wentBack, found, wavered, metres };
  });
  return { all, wrong: all.filter((w) => w.wrongTurns > 0) };
}

describe('a branch that runs another way', () => {
  const away: Point[] = [FORK, [1500, 300]];

  test.each([0.1, 0.3, 0.6])('%d turn wrong, and all of them come back and find', (junctionShare) => {
    const trials = 1000;
    // where no other path is to be made out there is no choice
    const share = defaultDoubt('junction').exists * junctionShare;
    const { all, wrong } = walk(STRAIGHT, away, { junctionShare }, trials);
    expect(Math.abs(wrong.length / trials - share)).toBeLessThan(within(share, trials, 0));
    expect(all.filter((w) => w.found).length).toBe(trials);
    for (const w of all) {
      expect(w.wentBack).toBe(w.wrongTurns);
      expect(w.wavered).toBe(w.wrongTurns > 0);
    }
  });

  test('they have walked to the second clash and back, 50 to 100 m each way, and not to the end of the branch', () => {
    for (const { metres } of walk(STRAIGHT, away, {}, 300).wrong) {
      expect(metres - 1200).toBeGreaterThan(2 * 50 - FORK_DOUBT);
      expect(metres - 1200).toBeLessThan(2 * 100 + 2 * FORK_DOUBT);
    }
  });

  test('who admits nothing goes on to the end of the branch before turning back', () => {
    const short: Point[] = [FORK, [400, 0]];
    const { wrong } = walk(STRAIGHT, short, { admitsLostShare: 0 }, 300);
    for (const w of wrong) {
      expect(w.found && w.wavered).toBe(true);
      expect(Math.abs(w.metres - 1200 - 2 * 400)).toBeLessThan(2 * FORK_DOUBT);
    }
  });

  test('a branch that runs nearly alike is not told apart, until it ends', () => {
    // 27° is less than the turn that shows
    const alike: Point[] = [FORK, [100, 200]];
    const { wrong } = walk(STRAIGHT, alike, {}, 300);
    for (const w of wrong) {
      expect(w.found && w.wavered).toBe(true);
      expect(Math.abs(w.metres - 1200 - 2 * distance(FORK, alike[1]!))).toBeLessThan(2 * FORK_DOUBT);
    }
  });
});

describe('a corner missed because another path goes straight on', () => {
  const straightOn: Point[] = [FORK, [0, 1500]];

  // the start decides how far beyond the corner the run of the line is compared
  test.each([
    [0, 600],
    [0, 580],
    [0.025, 600],
    [0.05, 580],
  ])('is noticed with a pace that errs by %d, %d m from the start', (paceShare, metres) => {
    const corner: readonly Point[] = [[0, -metres], FORK, [600, 0]];
    const { wrong } = walk(corner, straightOn, { paceShare }, 300);
    expect(wrong.length).toBeGreaterThan(250);
    for (const w of wrong) {
      expect(w.found && w.wavered).toBe(true);
      // a bend may be late by 2 SD of the fork's place and of the count, and 20 m; then two clashes; 4 SD of the pace
      const late = 2 * (8 + 1.054 * paceShare * metres) + 20;
      const most = (2 * (late + 150) + 2 * FORK_DOUBT) * (1 + 4 * paceShare);
      expect(w.metres - metres - 600).toBeLessThan(most);
    }
  });
});
