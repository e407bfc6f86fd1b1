import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openTask } from '../../src/cli/open-task.ts';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import { shareOf } from './walked.ts';

/* The scenarios as grounds and tasks that a user can run. In every file the better route stands first. */
const FOLDER = 'tests/scenarios/tasks';
const TRIALS = 500;

async function shares(path: string): Promise<number[]> {
  const { task, terrain, relief } = await openTask(path);
  const ground = mapGround(terrain, relief, task.features);
  const world = prepareWorld(ground, task, { seed: task.seed, seeing: task.seeing });
  return task.routes.map((drawn, i) => shareOf(world, resolveRoute(drawn, task, ground, `r${i}`), TRIALS));
}

const FILES = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
  .filter((f) => f.endsWith('.task.yaml'))
  .sort();

test('there is one for each scenario', () => {
  expect(new Set(FILES.map((f) => f.slice(0, 2))).size).toBe(12);
});

describe('the route that stands first is found by more parties', () => {
  test.each(FILES.filter((f) => !f.startsWith('12')))('%s', async (file) => {
    const found = await shares(`${FOLDER}/${file}`);
    expect(found.length).toBe(2);
    expect(found[0]!, found.join(' ')).toBeGreaterThan(found[1]! + 0.04);
  });
});

test('five abreast find it more often than one', async () => {
  const [alone] = await shares(`${FOLDER}/12-search/alone.task.yaml`);
  const [five] = await shares(`${FOLDER}/12-search/five-abreast.task.yaml`);
  expect(five!).toBeGreaterThan(alone! + 0.1);
});
