import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sideSlopePace } from '../../src/conditions/underfoot.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { simulate } from '../../src/walk/simulate.ts';
import { mergeTallies } from '../../src/walk/tally.ts';
import { AS_WRITTEN } from '../scenarios/turned.ts';
import { shareOf } from '../scenarios/walked.ts';
import {
  BENCH_DAY,
  BENCH_LIMITS,
  benchParty,
  benchWorld,
  leg,
  line,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { smallTask } from './open-ground.ts';

const N = 120;
const task = smallTask(AS_WRITTEN);

describe('not a bit changes', () => {
  const alone = simulate(task.world, task.aimedOff, 7, 0, N);

  test('when another route is walked before it', () => {
    simulate(task.world, task.byPath, 7, 0, N);
    expect(simulate(task.world, task.aimedOff, 7, 0, N)).toEqual(alone);
  });

  test('when the trials are split into blocks, in any order', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: N - 1 }), { maxLength: 5 }), (cuts) => {
        const edges = [0, ...cuts.sort((a, b) => a - b), N];
        const blocks = edges
          .slice(1)
          .map((to, i) => simulate(task.world, task.aimedOff, 7, edges[i]!, to))
          .reverse();
        expect(mergeTallies(blocks)).toEqual(alone);
      }),
      { seed: 5, numRuns: 3 },
    );
  });

  test('when things far away are added to the map', () => {
    const at = AS_WRITTEN.at;
    const more = smallTask(AS_WRITTEN, {
      features: [
        spot('far-boulder', 'boulder', at([-1400, -1400])),
        spot('far-cairn', 'cairn', at([1400, -1300])),
        line('far-stream', 'stream', [at([-1500, -1500]), at([1500, -1500])]),
        line('far-wall', 'wall', [at([-1500, -1400]), at([1500, -1400])]),
      ],
    });
    expect(simulate(more.world, more.aimedOff, 7, 0, N)).toEqual(alone);
    const before = simulate(task.world, task.byPath, 7, 0, N);
    expect(simulate(more.world, more.byPath, 7, 0, N)).toEqual(before);
  });

  test('and the seed is what does change it', () => {
    expect(simulate(task.world, task.aimedOff, 8, 0, N)).not.toEqual(alone);
  });
});

describe('no share changes by more than .01', () => {
  const trials = 6000;
  test('when the step is halved or doubled', () => {
    const share = (stepMetres: number) => {
      const t = smallTask(AS_WRITTEN, { stepMetres });
      return shareOf(t.world, t.byPath, trials);
    };
    const usual = share(10);
    expect(usual).toBeGreaterThan(0.3);
    expect(usual).toBeLessThan(0.95);
    expect(Math.abs(share(5) - usual)).toBeLessThanOrEqual(0.01);
    expect(Math.abs(share(20) - usual)).toBeLessThanOrEqual(0.01);
  });

  test('when a leg is split at an empty point on its line', () => {
    const at = AS_WRITTEN.at;
    const [a, b, c] = [at([0, 0]), at([60, 320]), at([150, 800])];
    const whole = shareOf(task.world, task.straight, trials);
    const split = route(leg('bearing', a, b), leg('bearing', b, c, { toFeature: 'target' }));
    expect(Math.abs(shareOf(task.world, split, trials) - whole)).toBeLessThanOrEqual(0.01);
    // a point that is a thing, and is found, does help
    const byFold = route(
      leg('bearing', a, at([150, 600]), { toFeature: 'fold' }),
      leg('bearing', at([150, 600]), c, { toFeature: 'target' }),
    );
    expect(shareOf(task.world, byFold, 2000)).toBeGreaterThan(whole + 0.05);
  });
});

test('an attempt is the same whatever was walked before it', () => {
  const target = spot('target', 'boulder', [0, 300], { exists: 0.9 });
  const bench = benchWorld({
    terrain: plainTerrain(1000, 10, (e, n) => 300 + 60 * Math.sin(e / 90) * Math.cos(n / 70)),
    features: [target, spot('fold', 'fold', [60, 40])],
    start: [0, -300],
    target,
    party: benchParty('competent', { reverseShare: 0.1 }),
    conditions: { ...BENCH_DAY, ground: 'wet' },
    limits: { ...BENCH_LIMITS, searchMinutes: 8, relaunches: 1 },
  });
  const world = { ...bench, sidePace: Float64Array.from({ length: 65 }, (_, i) => sideSlopePace(i / 64, 1)) };
  const legs = planLegs(world, route(leg('bearing', [0, -300], [0, 300], { toFeature: 'target' })));
  const going = new Attempt(world, legs);
  for (let trial = 0; trial < 200; trial++) {
    const after = { ...going.run(3, trial) };
    expect(new Attempt(world, legs).run(3, trial)).toEqual(after);
  }
});
