import type { Point } from '../../src/math/plane.ts';
import type { SkillLevel } from '../../src/party/party.ts';
import { DEFAULT_LIMITS, skillOf } from '../../src/party/presets.ts';
import type { Route } from '../../src/route/leg.ts';
import { Attempt } from '../../src/walk/attempt.ts';
import { planLegs } from '../../src/walk/planned-leg.ts';
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
import type { Lay } from './turned.ts';

/**
 * Over the top or by the path: a path of 2.57 km with 70 m of climb at 5 km/h to a ruin, 180 m aimed off by 150 m to a stream, along
 * it to the target; or straight at it, 2.1 km with 45 m of climb at 3.8 km/h. Climb counts as 7.92 times as many level metres (Scarf):
 * that alone meets both stated times, 3.9 min for the direct way and a break-even at 3.40 km/h; a minute for 10 m would make them 5.4
 * min and 3.19 km/h. The ground is level: the climb stands in the pace.
 */
export interface Way {
  readonly skill: SkillLevel;
  readonly visibility: number;
  /** km/h off the path. */
  readonly offPath?: number;
  /** Chance that the path is there. */
  readonly path?: number;
  /** Limit of the task, on a lay that is not scaled. */
  readonly minutes: number;
}

const SCARF = 7.92;
const PATH = 2570;
const DIRECT = 2100;

export interface Task {
  readonly world: World;
  readonly plan: Route;
}

/** Seconds per metre at so many km/h over `metres` with so much climb. */
function pace(metres: number, climb: number, kmh: number): number {
  return ((metres + SCARF * climb) / metres) * (3.6 / kmh);
}

function bothWorlds(lay: Lay, way: Way) {
  const at = (x: number, y: number) => lay.at([x, y]);
  const { skill, visibility, path: exists = 1 } = way;
  // the target at 2.1 km; the stream runs across there; the ruin 180 m short of the stream and 150 m to the left
  const wanted = at(0, DIRECT);
  const aim = at(-150, DIRECT);
  const ruinAt = at(-150, DIRECT - 180);
  const points = arcTo(-150, DIRECT - 180, PATH).map((p) => lay.at(p));
  const path = line('path', 'path', points, { exists, positionMetres: 0 });
  const stream = line('stream', 'stream', [at(-1000, DIRECT), at(1000, DIRECT)], CERTAIN);
  const ruin = spot('ruin', 'ruin', ruinAt, { exists: 0.97, positionMetres: 6 });
  const target = spot('target', 'boulder', wanted, { ...CERTAIN, sweepWidthMetres: 30 * lay.scale });
  const mark = spot('mark', 'knoll', at(80, DIRECT), {
    ...CERTAIN,
    rangeMetres: 800 * lay.scale,
    contrast: Math.min(1, 0.8 * lay.scale),
    visibility: 'high',
  });
  const own = skillOf(skill);
  const world = benchWorld({
    terrain: plainTerrain(3800, 80),
    features: [path, stream, ruin, target, mark],
    start: at(0, 0),
    target,
    // longer ways take longer
    limits: { ...DEFAULT_LIMITS, relaunches: 0, searchMinutes: 10, minutes: way.minutes * lay.scale },
    conditions: {
      ...BENCH_DAY,
      ground: 'dry',
      visibility: { below: visibility, above: visibility, cloudBase: null },
    },
    party: benchParty(skill, {
      reverseShare: own.reverseShare,
      slipShare: own.slipShare,
      speedShare: 0.06,
      handrailLossPerKm: 0,
    }),
  });
  return { world: { ...world, slowness: world.slowness.map(() => 1) }, points, at, ruinAt, aim, wanted };
}

export function byPath(lay: Lay, way: Way): Task {
  const { world, points, at, ruinAt, aim, wanted } = bothWorlds(lay, way);
  const { offPath = 3.8 } = way;
  const on = pace(PATH, 70, 5);
  // off the path the climb is the same, at the pace of open ground; the last 330 m are level
  const off = (way.path ?? 1) === 1 ? 3.6 / offPath : pace(PATH, 70, offPath);
  return {
    world: { ...world, paceOn: world.paceOn.map(() => on), paceOff: world.paceOff.map(() => off) },
    plan: route(
      leg('handrail', at(0, 0), ruinAt, {
        line: 'path',
        toFeature: 'ruin',
        path: points,
      }),
      leg('aim-off', ruinAt, aim, { line: 'stream', offsetMetres: 150 * lay.scale, side: 'left', wanted }),
      leg('handrail', aim, wanted, { line: 'stream', toFeature: 'target', fine: true }),
    ),
  };
}

export function straight(lay: Lay, way: Way): Task {
  const { world, at, wanted } = bothWorlds(lay, way);
  const off = pace(DIRECT, 45, way.offPath ?? 3.8);
  return {
    world: { ...world, paceOff: world.paceOff.map(() => off) },
    plan: route(leg('bearing', at(0, 0), wanted, { toFeature: 'target', fine: true })),
  };
}

/** An arc from the origin to (x, y), `metres` long, bulging to the left: 24 chords and no corner. */
function arcTo(x: number, y: number, metres: number): readonly Point[] {
  const d = Math.sqrt(x * x + y * y);
  // chord over arc is sin(h)/h, h half the angle of the arc
  let h = 0.01;
  while (Math.sin(h) / h > d / metres) h += 0.001;
  const radius = d / (2 * Math.sin(h));
  return Array.from({ length: 25 }, (_, i): Point => {
    const a = (i / 24) * 2 * h - h;
    const along = d / 2 + radius * Math.sin(a);
    const out = radius * (Math.cos(a) - Math.cos(h));
    return [(along * x - out * y) / d, (along * y + out * x) / d];
  });
}

export interface Finds {
  /** Share found within the limit, and the median minutes of those. */
  readonly share: number;
  readonly median: number;
}

export function finds({ world, plan }: Task, trials: number): Finds {
  const attempt = new Attempt(world, planLegs(world, plan));
  const minutes: number[] = [];
  for (let k = 0; k < trials; k++) {
    const r = attempt.run(1, k);
    if (r.found && r.seconds <= world.limitSeconds) minutes.push(r.seconds / 60);
  }
  minutes.sort((a, b) => a - b);
  return { share: minutes.length / trials, median: minutes[minutes.length >> 1] ?? Number.NaN };
}
