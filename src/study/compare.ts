import { type MappedGround, mapGround } from '../cost/mapped-ground.ts';
import type { Route } from '../route/leg.ts';
import type { Locate } from '../route/place.ts';
import { resolveRoute } from '../route/resolve.ts';
import { deriveRelief } from '../terrain/relief.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import type { Walkers } from '../walk/jobs.ts';
import { prepareWorld } from '../walk/prepare-world.ts';
import type { World } from '../walk/world.ts';
import { type Improvement, improvements } from './improve-routes.ts';
import { sampleWalks, type Told } from './sample-walks.ts';
import { type Screened, screen } from './screen.ts';
import type { Task } from './task.ts';
import { type Progress, type WalkedRoute, walkRoutes } from './walk-route.ts';
import { tryWayOut, type WayOut } from './way-out.ts';
import { type WorthChecking, worthChecking } from './worth-checking.ts';

export interface CompareInputs {
  readonly task: Task;
  readonly terrain: Terrain;
  /** Derived from the terrain when it is not at hand. */
  readonly relief?: Relief;
  /** For grid references and longitudes in drawn routes. */
  readonly locate?: Locate;
}

export interface CompareMeans {
  readonly walkersFor: (world: World) => Walkers;
  readonly progress?: Progress;
  /** Tells of single attempts and of a way out as well; otherwise neither is walked. */
  readonly tells?: boolean;
}

/** A route with what its attempts came to. */
export interface Walked extends WalkedRoute {
  readonly route: Route;
  /** What the search found that walks nearly the same, in a few words each. */
  readonly alike?: readonly string[];
}

/** What the report is written from. */
export interface Compared {
  readonly task: Task;
  readonly ground: MappedGround;
  readonly walked: readonly Walked[];
  /** By id of a route: what one change would do for it. The leading routes only. */
  readonly improved?: ReadonlyMap<string, Improvement>;
  /** By id of a route: what it leans on that may not be there. */
  readonly leanings?: WorthChecking['leanings'];
  /** What is worth a look before setting out, the most valuable first. */
  readonly checks?: WorthChecking['checks'];
  /** By id of a route: what is told of its attempts beyond their counts. */
  readonly told?: ReadonlyMap<string, Told>;
  readonly wayOut?: WayOut | null;
}

/** The main job but its report: ground, routes, walks. */
export async function compare(inputs: CompareInputs, means: CompareMeans): Promise<Compared> {
  const { task, terrain } = inputs;
  const progress = means.progress ?? (() => {});

  // what the map says of the ground, and what follows from it
  progress({ doing: 'ground', done: 0, of: 1 });
  const ground = mapGround(
    terrain,
    inputs.relief ?? deriveRelief(terrain.elevation),
    task.features,
    task.overrides,
  );
  const world = prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing });
  const walkers = means.walkersFor(world);
  try {
    // every route gets the same number of fresh attempts, the same days and the same true grounds
    let done = 0;
    const walk = (routes: readonly Route[]) =>
      walkRoutes(walkers, routes, task.seed, task.trials, (attempts) => {
        done += attempts;
        progress({ doing: 'walks', done, of: task.trials * Math.max(task.candidates, task.routes.length) });
      });

    // drawn routes are walked while the search finds others beside them
    progress({ doing: 'routes', done: 0, of: 1 });
    const drawn = drawnRoutes(task, ground, inputs.locate);
    const ahead = walk(drawn);
    for (const walks of ahead) walks.catch(() => {});
    const { found, alike } = await foundRoutes(task, ground, drawn, walkers);
    const routes = [...drawn, ...found];
    const tallies = await Promise.all([...ahead, ...walk(found)]);
    const walked = routes.map(
      (route, i): Walked => ({ route, alike: alike.get(route.id) ?? [], ...tallies[i]! }),
    );

    // what one change, or one look beforehand, would do
    progress({ doing: 'changes', done: 0, of: 1 });
    const [improved, beside] = await Promise.all([
      improvements(task, ground, walked, walkers),
      means.tells === true ? besides(task, ground, world, walked, walkers, means) : {},
    ]);
    return { task, ground, walked, improved, ...worthChecking(task, ground, world, walked), ...beside };
  } finally {
    await walkers.close();
  }
}

/** What is told beside the comparison; it fills the gaps that the race of the changes leaves to the workers. */
async function besides(
  task: Task,
  ground: MappedGround,
  world: World,
  walked: readonly Walked[],
  walkers: Walkers,
  means: CompareMeans,
): Promise<Pick<Compared, 'told' | 'wayOut'>> {
  const [told, wayOut] = await Promise.all([
    sampleWalks(world, walked, task.seed, walkers),
    tryWayOut(task, ground, walked, means.walkersFor),
  ]);
  return { told, wayOut };
}

/** Drawn routes first, then found ones until the count is reached. */
export async function gatherRoutes(
  task: Task,
  ground: MappedGround,
  walkers: Walkers,
  locate?: Locate,
): Promise<readonly Route[]> {
  const drawn = drawnRoutes(task, ground, locate);
  return [...drawn, ...(await foundRoutes(task, ground, drawn, walkers)).found];
}

function drawnRoutes(task: Task, ground: MappedGround, locate?: Locate): Route[] {
  return task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i + 1}`, locate));
}

async function foundRoutes(
  task: Task,
  ground: MappedGround,
  drawn: readonly Route[],
  walkers: Walkers,
): Promise<Screened> {
  const wanted = Math.max(0, task.candidates - drawn.length);
  return wanted === 0 ? { found: [], alike: new Map() } : screen(task, ground, drawn, wanted, walkers);
}
