import { describe, expect, test } from 'vitest';
import { normalCdf } from '../../src/math/normal-cdf.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
import {
  BENCH_DAY,
  benchParty,
  benchWorld,
  leg,
  line,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { ALL_LAYS, AS_WRITTEN, type Lay } from './turned.ts';

/*
 * Aiming off at a line square to the track. Common practice, no published source; the chance of no reversal and the
 * crossing of the 95th percentiles are closed forms (normal distribution).
 */
const TRIALS = 8000;
const AHEAD = 400;
const terrain = plainTerrain(1600, 40);

interface Walks {
  clean: number;
  /** Distance along the line until the target is seen, in σ, sorted; a miss counts as endless here and not in the mean. */
  along: number[];
  mean: number;
}

/** σ/r of the lateral error at the line, aimed off by `sds` of it (0: straight at it). */
const done = new Map<string, Walks>();

function walk(lay: Lay, ratio: number, sds: number, trials = TRIALS): Walks {
  const key = `${lay.name} ${ratio} ${sds} ${trials}`;
  const known = done.get(key) ?? walkAnew(lay, ratio, sds, trials);
  done.set(key, known);
  return known;
}

function walkAnew(lay: Lay, ratio: number, sds: number, trials: number): Walks {
  const radius = 10 * lay.scale;
  const sigma = ratio * radius;
  const ahead = AHEAD * lay.scale;
  const off = sds * sigma;
  const stretch = 1100;
  const at = (x: number, y: number) => lay.at([x / lay.scale, y / lay.scale]);
  const stream = line('stream', 'stream', [at(-stretch, ahead), at(stretch, ahead)], {
    exists: 1,
    positionMetres: 0,
  });
  const target = spot('target', 'boulder', at(0, ahead), {
    sweepWidthMetres: 2 * radius,
    exists: 1,
    positionMetres: 0,
  });
  const world = benchWorld({
    terrain,
    features: [stream, target],
    start: at(0, 0),
    target,
    stepMetres: 5,
    // no unmapped rivulets between
    conditions: { ...BENCH_DAY, ground: 'dry' },
    party: benchParty('competent', {
      bearingDegrees: ((sigma / ahead) * 180) / Math.PI,
      wanderMetres: 0,
      driftDegrees: 0,
      speedShare: 0,
    }),
  });
  const plan = route(
    leg('aim-off', at(0, 0), at(-off, ahead), {
      line: 'stream',
      offsetMetres: off,
      side: 'left',
      wanted: at(0, ahead),
    }),
    leg('handrail', at(-off, ahead), at(0, ahead), {
      line: 'stream',
      fromAlong: stretch - off,
      toAlong: stretch,
      toFeature: 'target',
      fine: true,
    }),
  );
  const attempt = new Attempt(world, planLegs(world, plan));
  let met = Number.POSITIVE_INFINITY;
  attempt.watcher = {
    event(kind, body, _mind, number) {
      if (kind === 'leg' && number === 1) met = body.walked;
    },
  };
  let clean = 0;
  let sum = 0;
  const along: number[] = [];
  for (let trial = 0; trial < trials; trial++) {
    // a target in view before the line is met costs nothing along it
    met = Number.POSITIVE_INFINITY;
    const r = attempt.run(1, trial);
    if (r.found && !r.wavered) clean++;
    // what is walked up to the target once it is seen is not part of the distance until it is seen
    const d = r.found ? Math.max(0, r.metres - met - radius) / sigma : 50;
    along.push(d);
    if (r.found) sum += d;
  }
  along.sort((a, b) => a - b);
  return { clean: clean / trials, along, mean: sum / trials };
}

const p95 = (w: Walks) => w.along[Math.floor(0.95 * w.along.length)]!;

describe('aiming off, as written', () => {
  test('σ/r = 2: the chance of no reversal is .685 straight, .971 and .988 aimed off (closed form)', () => {
    // straight at it the side is a guess: seen at once within r; else right half of the time and within 2σ of it
    const within = 2 * normalCdf(0.5, 0, 1) - 1;
    const far = 2 * (1 - normalCdf(2.5, 0, 1));
    const straight = within + (1 - within - far) / 2;
    const aimed = (a: number) => 1 - (normalCdf(-a - 0.5, 0, 1) + 1 - normalCdf(2 + 0.5, 0, 1));
    expect(Math.abs(walk(AS_WRITTEN, 2, 0).clean - straight)).toBeLessThan(0.015);
    expect(Math.abs(walk(AS_WRITTEN, 2, 1.5).clean - aimed(1.5))).toBeLessThan(0.012);
    expect(Math.abs(walk(AS_WRITTEN, 2, 2).clean - aimed(2))).toBeLessThan(0.012);
  });

  test('σ/r = 2: the 95th percentile of the distance is 5.2σ straight, 2.9σ and 3.2σ aimed off', () => {
    expect(p95(walk(AS_WRITTEN, 2, 0))).toBeGreaterThan(5.2 * 0.94);
    expect(p95(walk(AS_WRITTEN, 2, 1.5)) / 2.9).toBeCloseTo(1, 1);
    expect(p95(walk(AS_WRITTEN, 2, 2)) / 3.2).toBeCloseTo(1, 1);
  });

  test('σ/r = 4: aimed off by 1.5σ the 95th percentile is worse, since one in twenty reverses (closed form: from σ/r = 3.71)', () => {
    expect(p95(walk(AS_WRITTEN, 4, 1.5))).toBeGreaterThan(p95(walk(AS_WRITTEN, 4, 0)));
  });

  test('σ/r = .5: the means are .11σ straight, .20σ and .40σ aimed off', () => {
    expect(Math.abs(walk(AS_WRITTEN, 0.5, 0).mean - 0.11)).toBeLessThan(0.05);
    expect(Math.abs(walk(AS_WRITTEN, 0.5, 1.5).mean - 0.2)).toBeLessThan(0.05);
    expect(Math.abs(walk(AS_WRITTEN, 0.5, 2).mean - 0.4)).toBeLessThan(0.05);
  });
});

describe.each(ALL_LAYS)('aiming off, $name', (lay) => {
  const n = lay === AS_WRITTEN ? TRIALS : 2000;
  test('fewer reversals at every σ/r ≥ 1', () => {
    for (const ratio of [1, 2, 4]) {
      const straight = walk(lay, ratio, 0, n).clean;
      expect(walk(lay, ratio, 1.5, n).clean).toBeGreaterThan(straight);
      expect(walk(lay, ratio, 2, n).clean).toBeGreaterThan(straight);
    }
  });
  test('the 95th percentile is shorter with 2σ at every σ/r ≥ 1, with 1.5σ up to 3', () => {
    for (const ratio of [1, 2, 3])
      expect(p95(walk(lay, ratio, 1.5, n))).toBeLessThan(p95(walk(lay, ratio, 0, n)));
    for (const ratio of [1, 2, 4])
      expect(p95(walk(lay, ratio, 2, n))).toBeLessThan(p95(walk(lay, ratio, 0, n)));
  });
});
