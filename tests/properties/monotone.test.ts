import { describe, expect, test } from 'vitest';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { LOST, outcomeOf } from '../../src/walk/tally.ts';
import { AS_WRITTEN } from '../scenarios/turned.ts';
import { shareOf } from '../scenarios/walked.ts';
import { BENCH_DAY, BENCH_LIMITS, leg, line, route } from '../walk/plain-ground.ts';
import { smallTask } from './open-ground.ts';

const N = 800;
/** Common random numbers leave this much of a share to chance. */
const SLACK = 0.012;
const ROUTES = ['byPath', 'aimedOff', 'straight'] as const;

function rises(shares: number[]): void {
  for (let i = 1; i < shares.length; i++)
    expect(shares[i]!, shares.join(' ')).toBeGreaterThanOrEqual(shares[i - 1]! - SLACK);
  expect(shares[shares.length - 1]!, shares.join(' ')).toBeGreaterThan(shares[0]! + 0.02);
}

describe.each(ROUTES)('the chance to find it, %s', (name) => {
  test('does not fall with the range of detection', () => {
    rises(
      [5, 10, 20, 40].map((radius) => {
        const t = smallTask(AS_WRITTEN, { radius });
        return shareOf(t.world, t[name], N);
      }),
    );
  });
  test('does not fall with skill', () => {
    rises(
      (['novice', 'competent', 'expert'] as const).map((skill) => {
        const t = smallTask(AS_WRITTEN, { skill });
        return shareOf(t.world, t[name], N);
      }),
    );
  });
  test('does not fall with the search allowance', () => {
    rises(
      [0, 5, 10, 20].map((searchMinutes) => {
        const t = smallTask(AS_WRITTEN, { limits: { ...BENCH_LIMITS, searchMinutes } });
        return shareOf(t.world, t[name], N / 2);
      }),
    );
  });
  test('does not fall with the visibility', () => {
    rises(
      [40, 120, 300, 1000].map((v) => {
        const t = smallTask(AS_WRITTEN, {
          conditions: { ...BENCH_DAY, ground: 'dry', visibility: { below: v, above: v, cloudBase: null } },
        });
        return shareOf(t.world, t[name], N);
      }),
    );
  });
});

test('the chance to find it does not rise with the length of the last leg', () => {
  const shares = [80, 160, 240, 320, 400].map((d) => {
    const t = smallTask(AS_WRITTEN);
    const from = t.at(150, 800 - d);
    // set down at the attack point: only the last leg differs
    const world = { ...t.world, startX: from[0], startY: from[1] };
    return shareOf(world, route(leg('bearing', from, t.at(150, 800), { toFeature: 'target' })), N);
  });
  rises(shares.reverse());
});

test('one line walked with two techniques gives two results', () => {
  const t = smallTask(AS_WRITTEN);
  const [a, b] = [t.at(0, 0), t.at(150, 800)];
  const shares = (['bearing', 'timing'] as const).map((technique) =>
    shareOf(t.world, route(leg(technique, a, t.at(75, 400)), leg(technique, t.at(75, 400), b)), N, (r) => {
      return (r.x - b[0]) * (r.x - b[0]) + (r.y - b[1]) * (r.y - b[1]) < 900 || r.found;
    }),
  );
  const along = shareOf(t.world, t.byPath, N);
  expect(shares[0]).not.toBe(shares[1]);
  expect(along).toBeGreaterThan(shares[0]! + 0.2);
});

describe('a backstop at 80 m', () => {
  const at = AS_WRITTEN.at;
  function walked(exists: number) {
    const wall = line('wall', 'wall', [at([-800, 880]), at([1000, 880])], { exists, positionMetres: 0 });
    const t = smallTask(AS_WRITTEN, { features: [wall] });
    const plan = route(
      leg('bearing', at([0, 0]), at([150, 800]), {
        toFeature: 'target',
        catching: { line: 'wall', beyondMetres: 80 },
      }),
    );
    const attempt = new Attempt(t.world, planLegs(t.world, plan));
    let furthest = 0;
    let reached = 0;
    attempt.watcher = {
      event: () => {},
      step: (body) => {
        furthest = Math.max(furthest, body.y);
      },
    };
    let lost = 0;
    let beyond = 0;
    for (let k = 0; k < N; k++) {
      furthest = 0;
      const r = attempt.run(1, k);
      if (outcomeOf(t.world, r) === LOST) lost++;
      if (furthest > 870) reached++;
      if (furthest > 880 + 12) beyond++;
    }
    return { lost, beyond, reached };
  }
  test('that is there bounds the overshoot and loses nobody', () => {
    const there = walked(1);
    const gone = walked(0);
    // of pairs of trials: as many more as chance alone gives (two standard errors)
    expect(there.lost).toBeLessThanOrEqual(gone.lost + 2 * Math.sqrt(there.lost + gone.lost));
    expect(there.reached).toBeGreaterThan(N / 10);
    expect(there.beyond).toBeLessThan(N / 100);
    expect(gone.beyond).toBeGreaterThan(N / 10);
  });
});
