import { type MappedGround, mapGround } from '../cost/mapped-ground.ts';
import type { Report } from '../report/report.ts';
import { findRoutes } from '../route/find.ts';
import type { Route } from '../route/leg.ts';
import type { Locate } from '../route/place.ts';
import { resolveRoute } from '../route/resolve.ts';
import { deriveRelief } from '../terrain/relief.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import type { Walkers } from '../walk/jobs.ts';
import { prepareWorld } from '../walk/prepare-world.ts';
import type { World } from '../walk/world.ts';
import { candidateOf, type Walked } from './candidate.ts';
import type { Task } from './task.ts';
import { clearlySurer } from './unbeaten.ts';
import { type Progress, walkRoute } from './walk-route.ts';
import { writeReport } from './write-report.ts';

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
  readonly generator: string;
}

/** The main job: ground, routes, walks, report. */
export async function compare(inputs: CompareInputs, means: CompareMeans): Promise<Report> {
  const { task, terrain } = inputs;
  const progress = means.progress ?? (() => {});

  // what the map says of the ground, and what follows from it
  progress({ doing: 'ground', done: 0, of: 1 });
  const ground = mapGround(terrain, inputs.relief ?? deriveRelief(terrain.elevation), task.features);

  // the routes that people drew, then those that the search finds beside them
  progress({ doing: 'routes', done: 0, of: 1 });
  const routes = gatherRoutes(task, ground, inputs.locate);

  // every route gets the same number of fresh attempts, the same days and the same true grounds
  const world = prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing });
  const walkers = means.walkersFor(world);
  const walked: Walked[] = [];
  try {
    for (const [i, route] of routes.entries()) {
      const tally = await walkRoute(walkers, route, task.seed, task.trials, (done) =>
        progress({ doing: 'walks', done: i * task.trials + done, of: routes.length * task.trials }),
      );
      walked.push({ route, ...tally });
    }
  } finally {
    await walkers.close();
  }

  // the figures, and what they mean
  const candidates = walked.map((w, i) => candidateOf(w, i, task, ground));
  const shares = new Map(walked.map((w, i) => [candidates[i]!.id, w.range.shares]));
  const surer = clearlySurer((c) => shares.get(c.id)!);
  return writeReport(task, ground, candidates, surer, means.generator);
}

/** Drawn routes first, then found ones until the count is reached; a found one that only repeats a drawn one is left out. */
export function gatherRoutes(task: Task, ground: MappedGround, locate?: Locate): Route[] {
  const drawn = task.routes.map((r, i) => resolveRoute(r, task, ground, `drawn-${i + 1}`, locate));
  const wanted = Math.max(0, task.candidates - drawn.length);
  if (wanted === 0) return drawn;
  return [...drawn, ...findRoutes(task, ground, { count: wanted, besides: drawn })];
}
