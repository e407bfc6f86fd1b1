import { afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import type { OpenedTask } from '../../src/cli/open-task.ts';
import { openTask } from '../../src/cli/open-task.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';

/*
 * No package of the routes is there for show: without it some demo route is another. A package is taken away by answering
 * nothing in its place. (Layers of the cost: tests/cost/build.test.ts.)
 */
let opened: OpenedTask;
let relief: NonNullable<OpenedTask['relief']>;
let whole: string;

beforeAll(async () => {
  opened = await openTask('terrains/demo/lichen-frame.task.yaml');
  relief = opened.relief ?? deriveRelief(opened.terrain.elevation);
  whole = await plans();
}, 60_000);

afterEach(() => {
  vi.doUnmock('ngraph.path');
  vi.doUnmock('ngraph.graph');
  vi.doUnmock('@turf/turf');
});

/** What is proposed for the task, with whatever is mocked now. */
async function plans(): Promise<string> {
  vi.resetModules();
  const { mapGround } = await import('../../src/cost/mapped-ground.ts');
  const { findPlans } = await import('../../src/route/find.ts');
  const ground = mapGround(opened.terrain, relief, opened.task.features);
  const found = findPlans(opened.task, ground, { count: 6 });
  return JSON.stringify(
    found.map((plan) => plan.legs.map((l) => [l.technique, l.line, l.toFeature, l.to, l.catching])),
  );
}

describe('without a package other routes are found', () => {
  test('ngraph.path: no way through the leg network', async () => {
    vi.doMock('ngraph.path', () => ({ aStar: () => ({ find: () => [] }) }));
    expect(await plans()).not.toBe(whole);
  }, 60_000);

  test('ngraph.graph: no legs in the network', async () => {
    const real = await vi.importActual<{ default: () => { addLink: unknown } }>('ngraph.graph');
    vi.doMock('ngraph.graph', () => ({
      default: () => Object.assign(real.default(), { addLink: () => undefined }),
    }));
    expect(await plans()).not.toBe(whole);
  }, 60_000);

  test('@turf/turf: no line behind the end of a leg is known to catch anybody', async () => {
    const real = await vi.importActual<object>('@turf/turf');
    vi.doMock('@turf/turf', () => ({ ...real, lineIntersect: () => ({ features: [] }) }));
    expect(await plans()).not.toBe(whole);
  }, 60_000);

  test('with all of them the same are found again', async () => {
    expect(await plans()).toBe(whole);
  }, 60_000);
});
