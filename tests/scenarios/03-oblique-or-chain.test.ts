import { describe, expect, test } from 'vitest';
import { type Limits, SKILL_LEVELS, type SkillLevel } from '../../src/party/party.ts';
import { skillOf } from '../../src/party/presets.ts';
import type { Route } from '../../src/route/leg.ts';
import type { World } from '../../src/walk/world.ts';
import {
  BENCH_DAY,
  BENCH_LIMITS,
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
 * One long oblique bearing, or a chain over an attack point: (i) 500 m at 45° to the fall line of 12°, ρ = 1.4; (ii) a ruin, 180 m
 * square to a stream on the level, aimed 1.5 SD off, along the stream. r = 15 m. Common practice, no published source; figures of
 * an independent simulator with the same defaults (n = 40 000).
 */
const R = 15;

const SEARCH: Limits = { ...BENCH_LIMITS, searchMinutes: 15 };

interface Task {
  readonly world: World;
  readonly plan: Route;
}

/** (i): straight at it over the slope. `radius` as written is R; next to nothing shows where the count alone ends. */
function oblique(lay: Lay, skill: SkillLevel, limits: Limits, radius = R): Task {
  const [ux, uy] = lay.at([Math.SQRT1_2, Math.SQRT1_2]);
  const by = Math.tan(Math.PI / 15) / lay.scale;
  const to = lay.at([0, 500]);
  const target = spot('target', 'boulder', to, { ...CERTAIN, sweepWidthMetres: 2 * radius * lay.scale });
  const world = benchWorld({
    terrain: plainTerrain(1200, 40, (e, n) => 300 - by * (e * ux + n * uy)),
    features: [target],
    start: lay.at([0, 0]),
    target,
    limits,
    rho: 1.4,
    conditions: { ...BENCH_DAY, ground: 'dry' },
    party: benchParty(skill),
  });
  return { world, plan: route(leg('bearing', lay.at([0, 0]), to, { toFeature: 'target', fine: true })) };
}

/** SD across after 180 m, ρ = 1.2: √((d·σ)² + (ρ·w)²·d/100), w = s·√(100·l) per √(100 m), l = 50 m. */
function lateral(skill: SkillLevel, metres: number): number {
  const s = skillOf(skill);
  const wander = ((s.resightDegrees * Math.PI) / 180) * Math.sqrt(100 * 50);
  const bearing = (s.bearingDegrees * Math.PI) / 180;
  return Math.sqrt((metres * bearing) ** 2 + (1.2 * wander) ** 2 * (metres / 100));
}

/** (ii): up to the ruin, from it aimed off to the stream, along the stream. */
function chain(lay: Lay, skill: SkillLevel, limits: Limits): Task {
  const off = 1.5 * lateral(skill, 180 * lay.scale);
  const at = (x: number, y: number) => lay.at([x, y]);
  const ruinAt = at(0, 100);
  const stream = line('stream', 'stream', [at(-600, 280), at(600, 280)], CERTAIN);
  const ruin = spot('ruin', 'ruin', ruinAt, { exists: 0.97, positionMetres: 6 });
  // aimed to the left of it as one walks
  const aim = at(0, 280);
  const wanted = at(off / lay.scale, 280);
  const target = spot('target', 'boulder', wanted, { ...CERTAIN, sweepWidthMetres: 2 * R * lay.scale });
  const world = benchWorld({
    terrain: plainTerrain(1200, 40),
    features: [stream, ruin, target],
    start: at(0, 0),
    target,
    limits,
    rho: 1.2,
    conditions: { ...BENCH_DAY, ground: 'dry' },
    party: benchParty(skill),
  });
  const plan = route(
    leg('bearing', at(0, 0), ruinAt, { toFeature: 'ruin' }),
    leg('aim-off', ruinAt, aim, { line: 'stream', offsetMetres: off, side: 'left', wanted }),
    leg('handrail', aim, wanted, { line: 'stream', toFeature: 'target', fine: true }),
  );
  return { world, plan };
}

const found = ({ world, plan }: Task, n: number) => shareOf(world, plan, n);

describe('an oblique bearing or a chain, as written', () => {
  const n = trialsOf(3000);
  test.each([
    ['novice', 0.03, 0.12, 0.36],
    ['competent', 0.11, 0.26, 0.75],
    ['expert', 0.37, 0.56, 0.96],
  ] as const)(
    '%s: the oblique bearing stops within r, passes within r, finds within 15 min of search',
    (skill, stop, pass, search) => {
      const unseen = oblique(AS_WRITTEN, skill, BENCH_LIMITS, 0.01);
      const shares = [
        stoppedWithin(stops(unseen.world, unseen.plan, n), 0, 500, R),
        found(oblique(AS_WRITTEN, skill, BENCH_LIMITS), n),
        found(oblique(AS_WRITTEN, skill, SEARCH), n),
      ];
      for (const [i, expected] of [stop, pass, search].entries())
        expect(Math.abs(shares[i]! - expected), `${shares[i]}, not ${expected}`).toBeLessThanOrEqual(
          within(expected, n),
        );
    },
  );

  test.each(SKILL_LEVELS)('%s: the chain finds it .95 of the time without a search', (skill) => {
    // a novice who does not find the ruin goes on all the same, more often than not: .985 where nobody launched would be .97
    expect(Math.abs(found(chain(AS_WRITTEN, skill, BENCH_LIMITS), n) - 0.95)).toBeLessThanOrEqual(
      within(0.95, n),
    );
  });
});

describe.each(ALL_LAYS)('an oblique bearing or a chain, $name', (lay) => {
  const n = trialsOf(600);
  test.each([
    ['novice', 0.5, 1],
    ['competent', 0.12, 1],
    ['expert', -0.04, 0.04],
  ] as const)(
    '%s: the chain is better, by how much depends on the skill once there is time to search',
    (skill, least, most) => {
      const unaided = found(chain(lay, skill, BENCH_LIMITS), n) - found(oblique(lay, skill, BENCH_LIMITS), n);
      expect(unaided).toBeGreaterThanOrEqual(0.3);
      // a scaled ground asks for a scaled time: a square of twice the side takes twice the metres per strip and has as many
      const time = { ...SEARCH, searchMinutes: 15 * lay.scale };
      const searched = found(chain(lay, skill, time), n) - found(oblique(lay, skill, time), n);
      expect(searched).toBeGreaterThanOrEqual(least);
      expect(searched).toBeLessThanOrEqual(most);
    },
  );
});
