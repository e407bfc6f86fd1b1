import type { MappedGround } from '../../../src/cost/mapped-ground.ts';
import { lineLength } from '../../../src/math/plane.ts';
import { percentileSeconds } from '../../../src/math/quantile.ts';
import { writeReport } from '../../../src/report/write-report.ts';
import { interpretLine } from '../../../src/route/interpret.ts';
import type { Route } from '../../../src/route/leg.ts';
import { planningOf } from '../../../src/route/planning.ts';
import { resolveRoute } from '../../../src/route/resolve.ts';
import { routeLine } from '../../../src/route/says.ts';
import type { Walked } from '../../../src/study/compare.ts';
import type { Task } from '../../../src/study/task.ts';
import { deriveRelief } from '../../../src/terrain/relief.ts';
import { prepareWorld } from '../../../src/walk/prepare-world.ts';
import { hitsOf, type Tally } from '../../../src/walk/tally.ts';
import { legsAsWritten, understand } from '../as-written.ts';
import type { GroundFiles, ToThinker } from '../messages.ts';
import type { ToWalker } from '../walker-messages.ts';
import { type OpenedGround, type ReadGround, readGround } from './open-files.ts';
import { Pool, Superseded, shrinkingPieces, simulated } from './pool.ts';
import {
  dropQuietly,
  groundKeeper,
  locateOn,
  taskOn,
  tell,
  tellProblem,
  Unreadable,
  withoutTwins,
  worldKey,
} from './thinking.ts';
import { wholeGround } from './whole-ground.ts';

/** Attempts per route for the first figures, and for the very first ones of a page that has just been opened. */
const COARSE = 500;
const FIRST = 100;
/** A dragged route gives way to its next place, but not for longer than this without any figures, milliseconds. */
const MOST_BLIND = 100;
/** Routes whose figures are kept. */
const MOST_KEPT = 300;

interface Current {
  readonly state: number;
  readonly task: Task;
  readonly ground: MappedGround;
  readonly key: string;
}

/** Answers at once and roughly: what a changed task comes to in a few hundred attempts, and what a dragged route does. */
export function serveProber(): void {
  dropQuietly();
  let opened: OpenedGround | null = null;
  let groundNumber = 0;
  let ports: readonly MessagePort[] = [];
  let pool = new Pool([]);
  let current: Current | null = null;
  let first = true;
  const groundOf = groundKeeper();
  /** By route and attempts; kept while they are walked as well. */
  const tallies = new Map<string, Promise<Tally>>();
  const dragged = { waiting: null as Probe | null, walking: false, told: 0 };

  const hear = async (message: ToThinker): Promise<void> => {
    switch (message.do) {
      case 'ports':
        ports = message.ports;
        pool = new Pool(ports, true);
        return;
      case 'ground': {
        opened = null;
        groundNumber = message.number;
        tallies.clear();
        current = null;
        const read = await readable(message.ground);
        const { terrain, features } = read;
        const heights = terrain.elevation.data.slice();
        const { data: _, ...grid } = terrain.elevation;
        tell(
          {
            tells: 'ground',
            facts: {
              name: terrain.name,
              grid,
              heights,
              features,
              hazardsMapped: false,
              notes: terrain.notes,
            },
          },
          [heights.buffer],
        );
        // the page draws the ground meanwhile
        opened = { ...read, relief: deriveRelief(terrain.elevation) };
        return;
      }
      case 'task':
        think(message).catch((error) => problem(message.state, error));
        return;
      case 'probe':
        probe(message);
        return;
      case 'interpret': {
        if (current === null) return;
        const { task, ground } = current;
        const { name, line } = message;
        const route = interpretLine({ name, line }, planningOf(ground, task), 'drawn');
        const legs = legsAsWritten(route.legs, task.target.feature.id);
        tell({ tells: 'interpreted', number: message.number, name: message.name, legs });
        return;
      }
      case 'stop':
        pool.drop();
    }
  };

  const problem = (state: number, error: unknown) => {
    if (!(error instanceof Superseded)) tellProblem(state, error);
  };

  /** What comes after it need not wait for the walks, only for what precedes them. */
  async function think({ state, task: written, found }: Extract<ToThinker, { do: 'task' }>): Promise<void> {
    if (opened === null) return;
    const task = taskOn(opened, written);
    const ground = groundOf(opened, task);
    const key = worldKey(task, groundNumber);
    if (current === null || current.key !== key) {
      const world = prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing });
      for (const port of ports) port.postMessage({ do: 'world', key, world } satisfies ToWalker);
      tallies.clear();
      current = { state, task, ground, key };
    } else current = { ...current, state, task };
    const locate = locateOn(ground.terrain.crs);
    const drawn = task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i + 1}`, locate));
    const routes = withoutTwins(drawn, found, task.candidates);
    const trials = Math.min(task.trials, first ? FIRST : COARSE);
    first = false;
    // a route that was dragged to where it lies now is being walked already
    const wanted = new Set(routes.map((r) => nameOf(r, trials)));
    pool.drop(({ name }) => !wanted.has(name));
    const walked: Walked[] = await Promise.all(
      routes.map(async (route): Promise<Walked> => {
        const tally = await walk(route, task.seed, trials, false);
        const share = hitsOf(tally) / trials;
        return {
          route,
          tally,
          reasons: { looked: 0, counts: new Uint32Array(0) },
          range: { low: share, high: share, shares: Array.from({ length: 9 }, () => share) },
          alike: [],
        };
      }),
    );
    if (current?.state !== state) return;
    const report = writeReport({ task: { ...task, trials }, ground, walked }, 'page', wholeGround);
    const understood = task.routes.map((_, i) => understand(written.routes![i]!, drawn[i]!));
    tell({ tells: 'results', results: { state, coarse: true, report, routes, understood } });
  }

  /** Kept per route and world: what has not changed is not walked again. */
  function walk(route: Route, seed: number, trials: number, soon: boolean): Promise<Tally> {
    const name = nameOf(route, trials);
    const known = tallies.get(name);
    if (known !== undefined) return known;
    if (tallies.size > MOST_KEPT) tallies.clear();
    const job = { do: 'simulate', route, seed, from: 0, to: trials } as const;
    const sizes = shrinkingPieces(trials, pool.width);
    const tally = simulated(pool, current!.key, job, { name, soon }, sizes);
    tallies.set(name, tally);
    tally.catch(() => tallies.get(name) === tally && tallies.delete(name));
    return tally;
  }

  /** The next place of a dragged route: of many only the last is worth a look. */
  async function probe(message: Probe): Promise<void> {
    dragged.waiting = message;
    if (dragged.walking) {
      if (performance.now() - dragged.told < MOST_BLIND) pool.drop(({ soon }) => soon);
      return;
    }
    dragged.walking = true;
    dragged.told = performance.now();
    while (dragged.waiting !== null) {
      const next = dragged.waiting;
      dragged.waiting = null;
      try {
        if (await probed(next)) dragged.told = performance.now();
      } catch {
        // given way, or a route that cannot be walked from there: the next place will do
      }
    }
    dragged.walking = false;
  }

  async function probed({ number, route: written }: Probe): Promise<boolean> {
    if (current === null || opened === null || written.legs === undefined) return false;
    const { task, ground, key } = current;
    // only this route is read: the rest of the task stands as it did
    const drawn = { name: written.name, legs: written.legs } as Task['routes'][number];
    const route = resolveRoute(drawn, task, ground, 'drawn', locateOn(ground.terrain.crs));
    const trials = Math.min(task.trials, COARSE);
    const tally = await walk(route, task.seed, trials, true);
    // the route may have been set down meanwhile: its figures are the same
    if (current?.key !== key) return false;
    const line = routeLine(route.legs);
    tell({
      tells: 'probe',
      probe: {
        number,
        trials,
        share: hitsOf(tally) / trials,
        minutes: percentileSeconds(tally.allSeconds, 0.5) / 60,
        metres: lineLength(line),
        line,
      },
    });
    return true;
  }

  let latest = 0;
  let busy: Promise<void> = Promise.resolve();
  self.onmessage = ({ data }: MessageEvent<ToThinker>) => {
    if (data.do === 'task') {
      latest = data.state;
      // what is being walked for an older state is of no use any more, but for the route that was dragged
      pool.drop(({ soon }) => !soon);
    }
    busy = busy.then(async () => {
      if (data.do === 'task' && data.state !== latest) return;
      try {
        await hear(data);
      } catch (error) {
        problem(data.do === 'task' ? data.state : -1, error);
      }
    });
  };
}

type Probe = Extract<ToThinker, { do: 'probe' }>;

function nameOf(route: Route, trials: number): string {
  return JSON.stringify([route.legs, trials]);
}

async function readable(files: GroundFiles): Promise<ReadGround> {
  try {
    return await readGround(files);
  } catch (error) {
    throw new Unreadable(error);
  }
}
