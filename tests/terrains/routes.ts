import { expect } from 'vitest';
import { openTask } from '../../src/cli/open-task.ts';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { cellAt } from '../../src/grid/raster.ts';
import { resolveRoute } from '../../src/route/resolve.ts';

/** A real ground's task: three drawn routes that end at the target and touch neither void nor sea. */
export async function expectRoutes(path: string): Promise<void> {
  const { task, terrain, relief } = await openTask(path);
  const ground = mapGround(terrain, relief, task.features);
  expect(terrain.attribution).toMatch(/SRTM/);
  expect(task.routes.length).toBe(3);
  for (const drawn of task.routes) {
    const { legs } = resolveRoute(drawn, task, ground, 'r');
    expect(legs[legs.length - 1]!.to).toEqual(task.target.at);
    for (const leg of legs)
      for (const [x, y] of leg.path) {
        expect(terrain.elevation.data[cellAt(terrain.elevation, x, y)]).toBeGreaterThan(100);
      }
  }
}
