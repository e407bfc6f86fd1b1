import { describe, expect, test } from 'vitest';
import type { Conditions } from '../../src/conditions/conditions.ts';
import type { Point } from '../../src/math/plane.ts';
import type { Route } from '../../src/route/leg.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import {
  BENCH_DAY,
  benchGround,
  benchParty,
  benchWorld,
  leg,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { ALL_LAYS, type Lay } from './turned.ts';

/*
 * Cloud on top only: below it the day is a clear day, bit by bit. Common practice, no published source; the equality is exact
 * because every draw has its own key.
 */
const TRIALS = 400;
/** Height at the start and rise per metre northwards as the scenario is written. */
const FOOT = 250;
const RISE = 0.2;

const CLEAR: Conditions = { ...BENCH_DAY, visibility: { below: 5000, above: 5000, cloudBase: null } };
const CLOUD = (base: number): Conditions => ({
  ...BENCH_DAY,
  visibility: { below: 5000, above: 200, cloudBase: base },
});

interface Walk {
  /** Place and time at the start of every leg and at the end, of every trial. */
  readonly legs: string[][];
  /** Mean of the distance at which the plan ended from the target, 0 where it was found before, metres. */
  readonly off: number;
}

function walk(lay: Lay, corners: readonly Point[], conditions: Conditions): Walk {
  const [ux, uy] = lay.at([0, 1]);
  const by = RISE / (lay.scale * lay.scale);
  const terrain = plainTerrain(2400, 40, (e, n) => FOOT + by * (e * ux + n * uy));
  const at = corners.map((p) => lay.at(p));
  const end = at[at.length - 1]!;
  const target = spot('target', 'boulder', end, {
    sweepWidthMetres: 30 * lay.scale,
    exists: 1,
    positionMetres: 0,
  });
  const features = [target];
  const world = benchWorld(
    { terrain, features, start: at[0]!, target, conditions, party: benchParty('competent') },
    benchGround({ terrain, features }),
  );
  const plan: Route = route(
    ...at.slice(1).map((to, i) => leg('bearing', at[i]!, to, to === end ? { toFeature: 'target' } : {})),
  );
  const attempt = new Attempt(world, planLegs(world, plan));
  const legs: string[][] = [];
  let off = 0;
  attempt.watcher = {
    event(kind, body) {
      if (kind === 'searches') off += Math.hypot(body.x - end[0], body.y - end[1]);
      if (kind === 'leg') legs[legs.length - 1]!.push(`${body.x} ${body.y} ${body.clock}`);
    },
  };
  for (let trial = 0; trial < TRIALS; trial++) {
    legs.push([]);
    const r = attempt.run(1, trial);
    legs[trial]!.push(`${r.x} ${r.y} ${r.seconds} ${r.found}`);
  }
  return { legs, off: off / TRIALS };
}

/** 260 m to 340 m all the way. */
const LOW: Point[] = [
  [0, 50],
  [500, 150],
  [900, 350],
];
/** Two legs below 340 m, the last up to 600 m: more than 30 % of its length above 480 m. */
const HIGH: Point[] = [
  [0, 50],
  [500, 150],
  [700, 350],
  [300, 1750],
];

describe.each(ALL_LAYS)('cloud on top only, $name', (lay) => {
  const lowClear = walk(lay, LOW, CLEAR);
  const highClear = walk(lay, HIGH, CLEAR);
  const highCloud = walk(lay, HIGH, CLOUD(480));

  test('a route below 350 m is a clear day, trial by trial', () => {
    expect(walk(lay, LOW, CLOUD(480)).legs).toEqual(lowClear.legs);
  });
  test('a route that goes into it changes', () => {
    const ends = (w: Walk) => w.legs.map((l) => l[l.length - 1]);
    expect(ends(highCloud).filter((e, i) => e !== ends(highClear)[i]).length).toBeGreaterThan(0.9 * TRIALS);
    expect(highCloud.off).toBeGreaterThan(1.02 * highClear.off);
  });
  test('no draw of its low legs changes', () => {
    const low = (w: Walk) => w.legs.map((l) => l.slice(0, 3));
    expect(low(highCloud)).toEqual(low(highClear));
  });
  test('a base at 300 m changes the low route too', () => {
    expect(walk(lay, LOW, CLOUD(300)).legs).not.toEqual(lowClear.legs);
  });
});
