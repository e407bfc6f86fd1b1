import { describe, expect, test } from 'vitest';
import type { SkillLevel } from '../../src/party/party.ts';
import { skillOf } from '../../src/party/presets.ts';
import {
  BENCH_DAY,
  benchParty,
  benchWorld,
  CERTAIN,
  leg,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { trialsOf } from './trials.ts';
import { AS_WRITTEN, type Lay, layOf, VARIANTS } from './turned.ts';
import { shareOf, stops } from './walked.ts';

/*
 * A leg straight across a slope: 600 m, 20°, ρ = 1.3. Common practice, no published source. Closed form of the lateral error:
 * mean d·δ, δ = k·tan(slope); SD √((d·δ/2)² + (d·σ)² + (ρ·w)²·d/100).
 */
const METRES = 600;
const RHO = 1.3;
const tan = (degrees: number) => Math.tan((degrees * Math.PI) / 180);

interface Way {
  /** Angle by which the leg is aimed up the slope, radians. */
  readonly high?: number;
  readonly slope?: number;
  readonly visibility?: number;
}

/** The ground falls to the right of the leg, to the left where the lay mirrors. */
function task(lay: Lay, skill: SkillLevel, way: Way, seen: boolean) {
  const { high = 0, slope = 20, visibility = 1000 } = way;
  const [ux, uy] = lay.at([1, 0]);
  const by = tan(slope) / lay.scale;
  const from = lay.at([0, 0]);
  const aim = lay.at([-METRES * Math.sin(high), METRES * Math.cos(high)]);
  const target = spot('target', 'boulder', lay.at([0, METRES]), {
    ...CERTAIN,
    sweepWidthMetres: seen ? 30 * lay.scale : 0.02,
  });
  const world = benchWorld({
    terrain: plainTerrain(1200, 40, (e, n) => 600 - by * (e * ux + n * uy)),
    features: [target],
    start: from,
    target,
    rho: RHO,
    conditions: {
      ...BENCH_DAY,
      ground: 'dry',
      visibility: { below: visibility, above: visibility, cloudBase: null },
    },
    party: benchParty(skill),
  });
  return {
    world,
    right: [ux / lay.scale, uy / lay.scale] as const,
    plan: route(leg('bearing', from, aim, { toFeature: 'target' })),
  };
}

interface Spread {
  readonly mean: number;
  readonly sd: number;
  readonly below: number;
}

/** Where parties stop, + downhill of the target, metres. */
function spread(lay: Lay, skill: SkillLevel, way: Way, trials: number): Spread {
  const { world, plan, right } = task(lay, skill, way, false);
  const at = stops(world, plan, trials);
  let sum = 0;
  let squares = 0;
  let below = 0;
  let n = 0;
  for (let i = 0; i < at.length; i += 2) {
    // one in thousands walks over the very place
    if (Number.isNaN(at[i]!)) continue;
    n++;
    const off = at[i]! * right[0] + at[i + 1]! * right[1];
    sum += off;
    squares += off * off;
    if (off > 0) below++;
  }
  const mean = sum / n;
  return { mean, sd: Math.sqrt(squares / n - mean * mean), below: below / n };
}

function passes(lay: Lay, skill: SkillLevel, way: Way, n: number): number {
  const { world, plan } = task(lay, skill, way, true);
  return shareOf(world, plan, n);
}

const meanDrift = (skill: SkillLevel) => ((skillOf(skill).driftDegrees * Math.PI) / 180) * tan(20);

describe('a side slope, as written', () => {
  const n = trialsOf(3000);
  test.each([
    ['novice', 56, 64, 0.81, 0.76, 0.07, 0.1],
    ['competent', 27, 32, 0.8, 0.75, 0.16, 0.22],
    ['expert', 11, 15, 0.775, 0.725, 0.39, 0.49],
  ] as const)('%s', (skill, mean, sd, below, belowInCloud, straight, aimedHigh) => {
    const s = spread(AS_WRITTEN, skill, {}, n);
    // a mean has a standard error of its own
    expect(Math.abs(s.mean - mean)).toBeLessThan(Math.max(0.06 * mean, (4 * sd) / Math.sqrt(n)));
    expect(Math.abs(s.sd / sd - 1)).toBeLessThan(0.06);
    expect(Math.abs(s.below - below)).toBeLessThan(0.04);
    expect(Math.abs(spread(AS_WRITTEN, skill, { visibility: 150 }, n).below - belowInCloud)).toBeLessThan(
      0.04,
    );
    const high = { high: meanDrift(skill) };
    expect(Math.abs(spread(AS_WRITTEN, skill, high, n).below - 0.5)).toBeLessThan(
      0.02 + 2 * Math.sqrt(0.25 / n),
    );
    const rises = [passes(AS_WRITTEN, skill, {}, n), passes(AS_WRITTEN, skill, high, n)];
    expect(Math.abs(rises[0]! - straight), `${rises[0]}`).toBeLessThan(0.04);
    expect(Math.abs(rises[1]! - aimedHigh), `${rises[1]}`).toBeLessThan(0.04);
    expect(rises[1]!).toBeGreaterThan(rises[0]!);
  });

  test('on the level half are to either side', () => {
    expect(Math.abs(spread(AS_WRITTEN, 'competent', { slope: 0 }, n).below - 0.5)).toBeLessThan(0.032);
  });

  test('the mirror of the ground mirrors the error', () => {
    const mirrored = spread(layOf('mirrored', 0, 1, true), 'competent', {}, n);
    const s = spread(AS_WRITTEN, 'competent', {}, n);
    // the same draws fall the other way: what is common is the drift
    expect(Math.abs(mirrored.mean / s.mean - 1)).toBeLessThan(0.1);
    expect(Math.abs(mirrored.below - s.below)).toBeLessThan(0.04);
  });
});

describe.each(VARIANTS)('a side slope, $name', (lay) => {
  test.each(['novice', 'competent', 'expert'] as const)(
    '%s: most end below; aimed high by the mean drift as many above',
    (skill) => {
      const n = trialsOf(900);
      const s = spread(lay, skill, {}, n);
      expect(s.mean).toBeGreaterThan(0);
      expect(s.below).toBeGreaterThan(0.65);
      const high = { high: meanDrift(skill) };
      expect(Math.abs(spread(lay, skill, high, n).below - 0.5)).toBeLessThan(0.07);
      expect(passes(lay, skill, high, n)).toBeGreaterThan(passes(lay, skill, {}, n));
    },
  );
});
