import { describe, expect, test } from 'vitest';
import { distanceToSegment, type Point } from '../../src/math/plane.ts';
import type { Skill } from '../../src/party/party.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import { benchParty, benchWorld, CERTAIN, leg, line, route, spot } from './plain-ground.ts';

/*
 * A target that is not there, and the way back to the start: a line that is met and known again is followed where it leads there.
 * Common practice, no source; the places are geometry.
 */
const START: Point = [0, 0];
const THERE: Point = [600, 600];
/** Nobody errs, so that only the choice of the way shows. */
const EXACT: Partial<Skill> = {
  paceShare: 0,
  bearingDegrees: 0,
  wanderMetres: 0,
  driftDegrees: 0,
  handrailLossPerKm: 0,
};

function wayBack(path: readonly Point[]) {
  const target = spot('target', 'boulder', THERE, { ...CERTAIN, exists: 0, sweepWidthMetres: 10 });
  const world = benchWorld({
    features: [line('path', 'path', [...path], CERTAIN), target],
    start: START,
    target,
    party: benchParty('expert', EXACT),
  });
  const attempt = new Attempt(
    world,
    planLegs(world, route(leg('bearing', START, THERE, { toFeature: 'target' }))),
  );
  const track: Point[] = [];
  let back = false;
  attempt.watcher = {
    event(kind) {
      if (kind === 'on a known line') back = true;
    },
  };
  attempt.body.trace = (x, y) => {
    if (back) track.push([x, y]);
  };
  const { regained } = attempt.run(1, 0);
  const off = track.map((p) => Math.min(...path.slice(1).map((b, i) => distanceToSegment(p, path[i]!, b))));
  return { regained, track, farthest: Math.max(...off) };
}

describe('the way back', () => {
  test('along a path that leads to the known point, bends and all', () => {
    const { regained, track, farthest } = wayBack([START, [150, 60], [300, 300], [300, 900]]);
    expect(regained).toBe(true);
    expect(track.length).toBeGreaterThan(10);
    // straight on it would pass 64 m from the bend of the path
    expect(farthest).toBeLessThan(20);
  });

  test('straight on where the path makes a long way round, and no path brings a party to a place that it has not come to', () => {
    const { regained, track, farthest } = wayBack([START, [300, -900], [300, 900]]);
    expect(regained).toBe(true);
    expect(farthest).toBeGreaterThan(100);
    const [x, y] = track.at(-1)!;
    expect(Math.sqrt(x * x + y * y)).toBeLessThan(60);
  });
});
