import { describe, expect, test } from 'vitest';
import type { GroundWetness } from '../../src/conditions/conditions.ts';
import type { SkillLevel } from '../../src/party/party.ts';
import type { Route } from '../../src/route/leg.ts';
import type { World } from '../../src/walk/world.ts';
import {
  BENCH_DAY,
  benchParty,
  benchWorld,
  CERTAIN,
  leg,
  line,
  plainTerrain,
  route,
  spot,
} from '../walk/plain-ground.ts';
import { trialsOf } from './trials.ts';
import { ALL_LAYS, AS_WRITTEN, type Lay } from './turned.ts';
import { shareOf, stoppedWithin, stops, within } from './walked.ts';

/*
 * The end of a stream moves with the water: from the end (there for certain) 60 m square to the channel, slope 5° crossed at 60°
 * to the fall line, ρ = 1.2, r = 15 m. Common practice, no published source; shares across the channel follow from the shift alone:
 * Φ((15 − μ)/σ) − Φ((−15 − μ)/σ).
 */
const R = 15;

interface Way {
  readonly ground: GroundWetness;
  readonly head?: 'spring-fed';
  /** The target lies up the channel, not square to it. */
  readonly up?: boolean;
}

/** The party stands at the true end; the leg is the one drawn on the map. */
function fromTheEnd(lay: Lay, skill: SkillLevel, way: Way): { world: World; plan: Route } {
  const at = (x: number, y: number) => lay.at([x, y]);
  // the stream comes down against +y; the ground falls at 60° to a leg along +x, along the channel, in a
  // shallow valley, to one up it (as written only)
  const fall = way.up ? [0, -1] : [Math.cos(Math.PI / 3), -Math.sin(Math.PI / 3)];
  const [ux, uy] = lay.at([fall[0]!, fall[1]!]);
  const by = Math.tan(Math.PI / 36) / lay.scale;
  const stream = line('stream', 'stream', [at(0, 0), at(0, -500)], {
    ...CERTAIN,
    ...(way.head === undefined ? {} : { head: way.head }),
  });
  const to = way.up ? at(0, 60) : at(60, 0);
  const target = spot('target', 'boulder', to, { ...CERTAIN, sweepWidthMetres: 2 * R * lay.scale });
  const world = benchWorld({
    terrain: plainTerrain(700, 10, (e, n) => 600 - by * (e * ux + n * uy) + (way.up ? Math.abs(e) / 20 : 0)),
    features: [stream, target],
    start: at(0, 0),
    target,
    rho: 1.2,
    conditions: { ...BENCH_DAY, ground: way.ground },
    party: benchParty(skill),
  });
  const end = world.spotById.get('end:stream/source')!;
  const spots = world.spots.map((s) => (s.index === end ? { ...s, exists: 1 } : s));
  return {
    world: { ...world, spots, startSpot: end },
    plan: route(leg('bearing', at(0, 0), to, { toFeature: 'target', fine: true })),
  };
}

/** Two streams meet 150 m below the target; the party follows the longer one down from their meeting. */
function fromTheMeeting(skill: SkillLevel, ground: GroundWetness): { world: World; plan: Route } {
  const main = line(
    'main',
    'stream',
    [
      [0, 600],
      [0, -600],
    ],
    CERTAIN,
  );
  const side = line(
    'side',
    'stream',
    [
      [400, 400],
      [0, 0],
    ],
    CERTAIN,
  );
  const target = spot('target', 'boulder', [900, 900], { ...CERTAIN, sweepWidthMetres: 0.02 });
  const world = benchWorld({
    terrain: plainTerrain(1000, 40, (_e, n) => 600 + n / 100),
    features: [main, side, target],
    start: [0, 0],
    target,
    rho: 1.1,
    conditions: { ...BENCH_DAY, ground },
    party: benchParty(skill, { handrailLossPerKm: 0 }),
  });
  const meeting = world.spots.findIndex((s) => s.feature.kind === 'confluence');
  // there for certain, and sure to 6 m along the stream
  const spots = world.spots.map((s) =>
    s.index === meeting ? { ...s, exists: 1, shift: { mean: 0, sd: 6 } } : s,
  );
  return {
    world: { ...world, spots, startSpot: meeting },
    plan: route(leg('handrail', [0, 0], [0, -150], { line: 'main', fromAlong: 600, toAlong: 750 })),
  };
}

const found = (lay: Lay, skill: SkillLevel, way: Way, n: number) => {
  const { world, plan } = fromTheEnd(lay, skill, way);
  return shareOf(world, plan, n);
};

describe('the end of a stream, as written', () => {
  const n = trialsOf(2500);
  test.each([
    ['novice', 0.39, 0.11, 0.05, 0.16],
    ['competent', 0.44, 0.12, 0.05, 0.16],
    ['expert', 0.45, 0.12, 0.05, 0.16],
  ] as const)('%s: normal, wet, saturated, dry', (skill, normal, wet, saturated, dry) => {
    const grounds = ['normal', 'wet', 'saturated', 'dry'] as const;
    for (const [i, expected] of [normal, wet, saturated, dry].entries()) {
      const share = found(AS_WRITTEN, skill, { ground: grounds[i]! }, n);
      expect(Math.abs(share - expected), `${share}, not ${expected}`).toBeLessThanOrEqual(
        within(expected, n),
      );
    }
  });

  test('skill hardly helps: the end has moved, not the party', () => {
    const gain =
      found(AS_WRITTEN, 'competent', { ground: 'normal' }, n) -
      found(AS_WRITTEN, 'novice', { ground: 'normal' }, n);
    expect(gain).toBeLessThanOrEqual(0.06 + 2 * Math.sqrt(0.25 / n));
  });

  // the SD along is √(6² + (150·1.054·σ·1.1·M)²); M is 1 on normal ground and 1.1 on saturated, which makes .545/.81/.948 of the
  // figures stated for "every wetness"
  test.each([
    ['novice', 0.59, 0.545],
    ['competent', 0.85, 0.81],
    ['expert', 0.96, 0.948],
  ] as const)('%s: 150 m paced from a confluence, normal and saturated', (skill, normal, saturated) => {
    const share = (ground: GroundWetness) => {
      const { world, plan } = fromTheMeeting(skill, ground);
      return stoppedWithin(stops(world, plan, n), 0, -150, R);
    };
    expect(Math.abs(share('normal') - normal)).toBeLessThanOrEqual(within(normal, n));
    expect(Math.abs(share('saturated') - saturated)).toBeLessThanOrEqual(within(saturated, n));
  });

  test('a fixed head: .998 and .92', () => {
    const share = (ground: GroundWetness) =>
      found(AS_WRITTEN, 'competent', { ground, head: 'spring-fed' }, n);
    expect(share('normal')).toBeGreaterThan(0.99);
    expect(Math.abs(share('saturated') - 0.92)).toBeLessThan(0.04);
  });

  test('up the channel the target is passed on the way: .71 and .24', () => {
    const share = (ground: GroundWetness) => found(AS_WRITTEN, 'competent', { ground, up: true }, n);
    expect(Math.abs(share('normal') - 0.71)).toBeLessThan(0.04);
    expect(Math.abs(share('saturated') - 0.24)).toBeLessThan(0.04);
  });
});

describe.each(ALL_LAYS)('the end of a stream, $name', (lay) => {
  test('wet ground is worse than normal, saturated worst; a fixed head holds', () => {
    const n = trialsOf(1500);
    const share = (ground: GroundWetness, head?: 'spring-fed') =>
      found(lay, 'competent', { ground, ...(head === undefined ? {} : { head }) }, n);
    const [normal, wet, saturated] = [share('normal'), share('wet'), share('saturated')];
    expect(normal).toBeGreaterThan(wet + 0.15);
    expect(wet).toBeGreaterThan(saturated);
    expect(share('dry')).toBeLessThan(normal - 0.1);
    expect(share('saturated', 'spring-fed')).toBeGreaterThan(0.8);
    expect(share('normal', 'spring-fed')).toBeGreaterThan(0.98);
  });
});
