import { expect, test } from 'vitest';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { legNotes } from '../../src/report/leg-notes.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import { resolveTask } from '../../src/study/resolve-task.ts';
import { sampleWalks } from '../../src/study/sample-walks.ts';
import { turnedRoute } from '../../src/study/turned-route.ts';
import { walkRoutes } from '../../src/study/walk-route.ts';
import { tryWayOut } from '../../src/study/way-out.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import { walkHere } from '../../src/walk/jobs.ts';
import { prepareWorld } from '../../src/walk/prepare-world.ts';
import { newTally } from '../../src/walk/tally.ts';
import { FEATURES, feature, flatTerrain } from './ground.ts';

const terrain = { ...flatTerrain(), elevation: { ...flatTerrain().elevation } };
terrain.elevation.data = new Float32Array(100 * 100).fill(300);
const relief = deriveRelief(terrain.elevation);
const NONE = { looked: 0, counts: new Uint32Array(0) };
const CLEAR = 'visibility: 5000';
/** A drop right across the only way. */
const across = feature('drop', 'cliff', {
  type: 'line',
  points: [
    [400_000, 500_450],
    [401_000, 500_460],
  ],
});
/** A drop in a corner where nobody goes. */
const aside = feature('drop', 'cliff', {
  type: 'line',
  points: [
    [400_050, 500_950],
    [400_100, 500_950],
  ],
});

/** Large enough to be found again by a bearing. */
const house = feature('house', 'building', { type: 'point', at: [400_100, 500_100] });

function taskOn(conditions: string, mapped: typeof FEATURES, start = '{ feature: house }') {
  const features = [...mapped, house];
  const text = `version: 1
terrain: flat
start: ${start}
target: { feature: sinkhole-3 }
conditions: { ${conditions} }
routes: [{ name: straight, legs: [{ technique: bearing, to: target }] }]
seed: 3
`;
  const task = resolveTask(readTaskDocument(text, 'a.task.yaml'), { terrain, features, lineOf: () => [] });
  const ground = mapGround(terrain, relief, task.features);
  const route = resolveRoute(task.routes[0]!, task, ground, 'drawn-1');
  const walked = [{ route, tally: newTally(1, 0, 1), reasons: NONE, range: { low: 0, high: 0, shares: [] } }];
  return { task, ground, walked };
}

test('in clear weather past a drop that is out of the way: parties go back and none enters it', async () => {
  const { task, ground, walked } = taskOn(CLEAR, [...FEATURES, aside]);
  const way = await tryWayOut(task, ground, walked, walkHere);
  expect(way).toMatchObject({ trials: 1000, hazardTrials: 0 });
  expect(way!.route.legs.at(-1)!.toFeature).toBe('house');
});

test('where the drop lies across the way back no clear way out is told', async () => {
  const { task, ground, walked } = taskOn(CLEAR, [...FEATURES, across]);
  const way = await tryWayOut(task, ground, walked, walkHere);
  // none that parties arrive by, or one that the card must refuse: 1 of 200 is its limit
  if (way !== null) expect(way.hazardTrials * 200).toBeGreaterThanOrEqual(way.trials);
});

test('none is tried where nobody mapped hazards, nor back to a bare place', async () => {
  const unmapped = taskOn(CLEAR, FEATURES);
  expect(await tryWayOut(unmapped.task, unmapped.ground, unmapped.walked, walkHere)).toBeNull();
  const bare = taskOn(CLEAR, [...FEATURES, aside], '{ at: [400100, 500100] }');
  expect(await tryWayOut(bare.task, bare.ground, bare.walked, walkHere)).toBeNull();
});

test('attempts told are the ones counted: the first find and the first without, and legs end in order', async () => {
  const { task, ground } = taskOn('visibility: 300', FEATURES);
  const world = prepareWorld(ground, task, { seed: 3, seeing: task.seeing });
  const route = resolveRoute(task.routes[0]!, task, ground, 'drawn-1');
  const walked = await walkRoutes(walkHere(world), [route], 3, 300, () => {})[0]!;
  const told = (await sampleWalks(world, [{ route, ...walked }], 3, walkHere(world))).get('drawn-1')!;
  const hit = (outcome: number) => outcome < 2;
  const { outcomeOf } = walked.tally;
  expect(told.walks.map((w) => w.trial)).toEqual([
    outcomeOf.findIndex(hit),
    outcomeOf.findIndex((o) => !hit(o)),
  ]);
  for (const walk of told.walks) expect(walk.outcome).toBe(outcomeOf[walk.trial]);
  // finds are all that end the one leg: nine tenths of them, within the first 200 attempts
  const seconds = told.legSeconds[0]!;
  expect(seconds).toBeGreaterThan(0);
});

test('a leg is noted with the side on which a drop lies, facing the way one walks', () => {
  const beside = feature('drop', 'cliff', {
    type: 'line',
    points: [
      [400_445, 500_460],
      [400_455, 500_470],
    ],
  });
  const { task, ground } = taskOn(CLEAR, [...FEATURES, beside]);
  const [leg] = resolveRoute(task.routes[0]!, task, ground, 'drawn-1').legs;
  // from (100, 100) to (900, 800) the line runs at slope 7/8: the drop's (450, 465) stands 40 m to its left
  expect(legNotes(leg!, ground, 725)).toMatchObject({ stopByMinutes: 13, hazardSide: 'left' });
  const back = { ...leg!, path: [...leg!.path].reverse() };
  expect(legNotes(back, ground, null).hazardSide).toBe('right');
});

test('a route turned round follows its lines back and ends where it began', () => {
  const { task, ground } = taskOn(CLEAR, FEATURES);
  const drawn = {
    name: 'by the beck',
    legs: [
      { technique: 'bearing', to: { at: [400_800, 500_600] } },
      { technique: 'handrail', along: 'beck-2', towards: 'source', metres: 300 },
      { technique: 'bearing', to: 'target' },
    ],
  } as const;
  const route = resolveRoute(drawn, task, ground, 'drawn-1');
  const back = turnedRoute(route, 'old-cairn');
  expect(back.legs.map((l) => l.technique)).toEqual(['bearing', 'handrail', 'bearing']);
  expect(back.legs[0]!.from).toEqual(task.target.at);
  expect(back.legs[2]).toMatchObject({ to: task.start.at, toFeature: 'old-cairn', fine: true });
  const [there, here] = [route.legs[1]!, back.legs[1]!];
  expect([here.fromAlong, here.toAlong]).toEqual([there.toAlong, there.fromAlong]);
  expect(here.path).toEqual([...there.path].reverse());
});
