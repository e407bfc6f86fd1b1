import { mapGround } from '../cost/mapped-ground.ts';
import { endText } from '../route/says.ts';
import { deriveRelief } from '../terrain/relief.ts';
import { prepareWorld } from '../walk/prepare-world.ts';
import { type Story, tellTrial } from '../walk/story.ts';
import { type CompareInputs, type CompareMeans, gatherRoutes } from './compare.ts';

/** A route's attempt, with where its legs lead. */
export interface ToldRoute {
  readonly name: string;
  readonly ends: readonly string[];
  readonly story: Story;
}

/** One attempt on every route, told: the same attempt that `compare` counts under this number. */
export async function tell(inputs: CompareInputs, means: CompareMeans, trial: number): Promise<ToldRoute[]> {
  const { task, terrain } = inputs;
  const ground = mapGround(
    terrain,
    inputs.relief ?? deriveRelief(terrain.elevation),
    task.features,
    task.overrides,
  );
  const world = prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing });
  const walkers = means.walkersFor(world);
  try {
    const routes = await gatherRoutes(task, ground, walkers, inputs.locate);
    return routes.map((route) => ({
      name: route.name,
      ends: route.legs.map((leg) => endText(leg, ground, task)),
      story: tellTrial(world, route, task.seed, trial),
    }));
  } finally {
    await walkers.close();
  }
}
