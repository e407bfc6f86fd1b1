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
import type { GroundFiles, ToThinker, ToWalker } from '../messages.ts';
import { type OpenedGround, type ReadGround, readGround } from './open-files.ts';
import { Pool, Superseded, simulated } from './pool.ts';
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
/** Attempts per message: small, so that all walkers end together. */
const PIECE = 25;
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
  const tallies = new Map<string, Tally>();

  const hear = async (message: ToThinker): Promise<void> => {
    switch (message.do) {
      case 'ports':
        ports = message.ports;
        pool = new Pool(ports, 2);
        return;
      case 'ground': {
        opened = null;
        groundNumber++;
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
        return think(message);
      case 'probe':
        return probe(message);
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
        pool.clear();
    }
  };

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
    const walked: Walked[] = await Promise.all(
      routes.map(async (route): Promise<Walked> => {
        const tally = await walk(route, task.seed, trials);
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
  async function walk(route: Route, seed: number, trials: number): Promise<Tally> {
    const { key } = current!;
    const name = JSON.stringify([route.legs, trials]);
    const known = tallies.get(name);
    if (known !== undefined) return known;
    const tally = await simulated(pool, key, { do: 'simulate', route, seed, from: 0, to: trials }, PIECE);
    if (tallies.size > MOST_KEPT) tallies.clear();
    tallies.set(name, tally);
    return tally;
  }

  async function probe({ number, route: written }: Extract<ToThinker, { do: 'probe' }>): Promise<void> {
    if (current === null || opened === null || written.legs === undefined) return;
    const { task, ground, state } = current;
    // only this route is read: the rest of the task stands as it did
    const drawn = { name: written.name, legs: written.legs } as Task['routes'][number];
    const route = resolveRoute(drawn, task, ground, 'drawn', locateOn(ground.terrain.crs));
    const trials = Math.min(task.trials, COARSE);
    const tally = await walk(route, task.seed, trials);
    if (current?.state !== state) return;
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
  }

  let latest = 0;
  self.onmessage = ({ data }: MessageEvent<ToThinker>) => {
    if (data.do === 'task') {
      latest = data.state;
      // what is being walked for an older state is of no use any more
      pool.clear();
    }
    // of many drags only the last one that waits is worth a look
    const newest = data.do === 'probe' ? ++probes : probes;
    busy = busy.then(async () => {
      if (data.do === 'task' && data.state !== latest) return;
      if (data.do === 'probe' && newest !== probes) return;
      try {
        await hear(data);
      } catch (error) {
        if (error instanceof Superseded) return;
        if (data.do === 'probe') return;
        tellProblem(data.do === 'task' ? data.state : -1, error);
      }
    });
  };
  let probes = 0;
  let busy: Promise<void> = Promise.resolve();
}

async function readable(files: GroundFiles): Promise<ReadGround> {
  try {
    return await readGround(files);
  } catch (error) {
    throw new Unreadable(error);
  }
}
