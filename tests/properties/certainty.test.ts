import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { outcomeOf } from '../../src/walk/tally.ts';
import { AS_WRITTEN } from '../scenarios/turned.ts';
import { benchParty, leg, line, route, spot } from '../walk/plain-ground.ts';
import { NO_ERRORS, type SmallTask, smallTask } from './open-ground.ts';

const ROUTES = ['byPath', 'aimedOff', 'straight'] as const;

/** Everything that a trial came to, as one text. */
function results(task: SmallTask, name: (typeof ROUTES)[number], trials: number, seed = 1): string[] {
  const attempt = new Attempt(task.world, planLegs(task.world, task[name]));
  return Array.from({ length: trials }, (_, k) => {
    const r = attempt.run(seed, k);
    return `${outcomeOf(task.world, r)} ${r.found} ${r.seconds} ${r.metres} ${r.x} ${r.y}`;
  });
}

test.each(ROUTES)('no errors and a certain map: found every time, in one and the same time (%s)', (name) => {
  const all = results(smallTask(AS_WRITTEN, { party: benchParty('competent', NO_ERRORS) }), name, 60);
  expect(new Set(all).size).toBe(1);
  expect(all[0]).toContain('0 true');
});

test('no errors and a certain map: any chain of straight legs of any technique arrives, every time alike', () => {
  const techniques = ['bearing', 'timing', 'sight'] as const;
  const t = smallTask(AS_WRITTEN, { party: benchParty('novice', NO_ERRORS) });
  const corner = fc.record({
    x: fc.integer({ min: -500, max: 500 }),
    y: fc.integer({ min: 50, max: 550 }),
    technique: fc.constantFrom(...techniques),
  });
  fc.assert(
    fc.property(fc.array(corner, { maxLength: 3 }), fc.constantFrom(...techniques), (corners, last) => {
      const places: Point[] = [[0, 0], ...corners.map((c): Point => [c.x, c.y]), [150, 800]];
      const ways = [...corners.map((c) => c.technique), last];
      const legs = ways
        .map((technique, i) =>
          leg(technique, places[i]!, places[i + 1]!, i + 1 === ways.length ? { toFeature: 'target' } : {}),
        )
        .filter((l) => l.from[0] !== l.to[0] || l.from[1] !== l.to[1]);
      const attempt = new Attempt(t.world, planLegs(t.world, route(...legs)));
      const all = new Set(
        Array.from({ length: 3 }, (_, k) => {
          const r = attempt.run(1, k);
          expect(r.found && !r.wavered).toBe(true);
          return `${r.seconds} ${r.metres}`;
        }),
      );
      expect(all.size).toBe(1);
    }),
    { seed: 7, numRuns: 40 },
  );
});

describe('a chance q of being there mixes the ground with and the ground without, trial by trial', () => {
  const AT = AS_WRITTEN;
  const quiet = benchParty('competent', { handrailLossPerKm: 0 });
  // by chance of the attack point, of the path, of the target: what the walker does not know
  const tasks = {
    fold: (q: number) =>
      smallTask(AT, {
        party: quiet,
        features: [
          spot('fold', 'fold', AT.at([150, 600]), {
            exists: q,
            positionMetres: 0,
            rangeMetres: 40,
            contrast: 1,
          }),
        ],
      }),
    path: (q: number) =>
      smallTask(AT, {
        party: quiet,
        features: [
          line('path', 'path', [AT.at([0, 0]), AT.at([80, 300]), AT.at([0, 600])], {
            exists: q,
            positionMetres: 0,
          }),
        ],
      }),
    target: (q: number) =>
      smallTask(AT, {
        party: quiet,
        features: [
          spot('target', 'boulder', AT.at([150, 800]), {
            exists: q,
            positionMetres: 0,
            sweepWidthMetres: 30,
          }),
        ],
      }),
  };
  test.each(Object.keys(tasks) as (keyof typeof tasks)[])('%s', (key) => {
    const n = 150;
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.integer({ min: 1, max: 1e6 }),
        (q, seed) => {
          const without = results(tasks[key](0), 'byPath', n, seed);
          const with_ = results(tasks[key](1), 'byPath', n, seed);
          const mixed = results(tasks[key](q), 'byPath', n, seed);
          let there = 0;
          for (let k = 0; k < n; k++) {
            expect([without[k], with_[k]]).toContain(mixed[k]);
            if (mixed[k] === with_[k] && with_[k] !== without[k]) there++;
          }
          // and as many of them as q says, among those in which it matters
          const matters = with_.filter((w, k) => w !== without[k]).length;
          expect(matters).toBeGreaterThan(n / 3);
          expect(Math.abs(there / matters - q)).toBeLessThan(4.5 * Math.sqrt((q * (1 - q)) / matters) + 0.02);
        },
      ),
      { seed: 11, numRuns: 4 },
    );
  });
});
