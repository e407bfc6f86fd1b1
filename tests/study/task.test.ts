import { expect, test } from 'vitest';
import { mapGround } from '../../src/cost/mapped-ground.ts';
import { UserError } from '../../src/door/user-error.ts';
import { DEFAULT_LIMITS, skillOf } from '../../src/party/presets.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import { resolveTask } from '../../src/study/resolve-task.ts';
import type { Task } from '../../src/study/task.ts';
import { deriveRelief } from '../../src/terrain/relief.ts';
import { FEATURES, flatTerrain } from './ground.ts';

const SHORT = `version: 1
terrain: ../flat
start: { feature: old-cairn }
target: { feature: sinkhole-3 }
`;

/** The task of design.md, its ids moved to the ground of these tests. */
const FULL = `
terrain: ../some-moor
version: 1
start:  { feature: old-cairn }
target: { at: [400850, 500850], kind: spring, sweepWidthMetres: 24 }
conditions:
  visibility: { below: 5000, above: 200, cloudBase: 480 }
  ground: saturated
  light: day
  wind: { metresPerSecond: 8, fromDegrees: 240 }
  date: 2026-11-25
party:
  skill: expert
  people: 4
  altimeter: false
  compass: true
  speed: irmischer-clarke
  set: { bearingDegrees: 3, paceShare: 0.06, wanderMetres: 0, driftDegrees: 0 }
limits: { minutes: 90, searchMinutes: 10, relaunches: 1, searchPeopleAbreast: 1, turnRoundMinutes: 60 }
features:
  long-wall: { exists: 0.6, positionMetres: 15 }
routes:
  - name: over the top
    legs:
      - { technique: bearing, to: { at: [400200, 500850] } }
      - { technique: aim-off, line: beck-2, side: left, metres: 60 }
      - { technique: handrail, along: beck-2, towards: mouth, metres: 150 }
      - { technique: bearing, to: target }
  - name: as drawn
    line: drawn/by-hand.gpx
find: { candidates: 6 }
trials: 10000
seed: 1
`;

function resolved(
  text: string,
  lineOf = () =>
    [
      [400_100, 500_100],
      [400_850, 500_850],
    ] as const,
): Task {
  const document = readTaskDocument(text, 'tasks/peat-house.task.yaml');
  return resolveTask(document, { terrain: flatTerrain(), features: FEATURES, lineOf });
}

function said(text: string): string {
  try {
    resolved(text);
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return (error as UserError).message.replaceAll('tasks/peat-house.task.yaml', 'T');
  }
  return 'read';
}

test('a short task gets every default', () => {
  const task = resolved(SHORT);
  expect(task.name).toBe('Peat house');
  expect(task.start.at).toEqual([400_100, 500_100]);
  expect(task.target.feature.id).toBe('sinkhole-3');
  expect(task.conditions).toEqual({
    visibility: { below: 5000, above: 5000, cloudBase: null },
    ground: 'normal',
    light: 'day',
    wind: { metresPerSecond: 0, fromDegrees: 0 },
    date: null,
  });
  expect(task.party.set).toEqual(skillOf('competent'));
  expect(task.limits).toEqual(DEFAULT_LIMITS);
  expect([task.trials, task.seed, task.candidates, task.seeing]).toEqual([10_000, 1, 6, 'definite']);
  expect(task.features.map((f) => f.id)).toEqual(FEATURES.map((f) => f.id));
});

test('every word of the full shape arrives', () => {
  const task = resolved(FULL);
  expect(task.target.feature).toMatchObject({ id: 'target', kind: 'spring', origin: 'drawn' });
  expect(task.target.feature.doubt.sweepWidthMetres).toBe(24);
  expect(task.features.at(-1)).toBe(task.target.feature);
  expect(task.conditions.visibility).toEqual({ below: 5000, above: 200, cloudBase: 480 });
  expect(task.party.set).toEqual({
    ...skillOf('expert'),
    bearingDegrees: 3,
    paceShare: 0.06,
    wanderMetres: 0,
    driftDegrees: 0,
  });
  expect(task.limits).toMatchObject({ minutes: 90, turnRoundMinutes: 60, slopeDegrees: 35 });
  const wall = task.features.find((f) => f.id === 'long-wall');
  expect(wall?.doubt).toMatchObject({ exists: 0.6, positionMetres: 15 });
  expect(task.routes.map((r) => [r.name, r.legs?.length, r.line?.length])).toEqual([
    ['over the top', 4, undefined],
    ['as drawn', undefined, 2],
  ]);
  expect(task.routes[0]?.legs?.[3]?.to).toBe('target');
});

test('every parameter of a skill can be set', () => {
  const names = Object.keys(skillOf('novice'));
  for (const name of names) {
    const value = name === 'contourMetres' ? '{ mean: 0, sd: 0 }' : name === 'overrun' ? '1' : '0.125';
    const set = resolved(`${SHORT}party: { set: { ${name}: ${value} } }`).party.set;
    const expected = name === 'contourMetres' ? { mean: 0, sd: 0 } : Number(value);
    expect(set[name as keyof typeof set]).toEqual(expected);
  }
  expect(names).toHaveLength(22);
});

test('a start by longitude and latitude, and by grid reference', () => {
  // 54.389° N, 2.000° W lies on the central meridian of the British grid: easting 400 000 exactly (EPSG:27700).
  const byLonLat = resolved(SHORT.replace('{ feature: old-cairn }', '{ lonLat: [-1.9965, 54.4005] }'));
  expect(Math.abs(byLonLat.start.at[0] - 400_227)).toBeLessThan(150);
  const byGrid = resolved(SHORT.replace('{ feature: old-cairn }', '{ grid: "NZ 001 002" }'));
  expect(byGrid.start.at).toEqual([400_100, 500_200]);
  expect(byGrid.start.feature).toBeNull();
});

test.each([
  [
    'feature',
    '{ feature: old-carn }',
    'T:3:19: start.feature: the terrain has no such feature; did you mean old-cairn?',
  ],
  [
    'off the map',
    '{ at: [399000, 500100] }',
    'T:3:14: start.at: this place is off the map (got 399000, 500100, expected easting 400000 to 401000, northing 500000 to 501000)',
  ],
  [
    'nodata',
    '{ at: [400005, 500995] }',
    'T:3:14: start.at: the height of this place is not known (nodata) (got 400005, 500995)',
  ],
  [
    'barrier',
    '{ at: [400550, 500450] }',
    'T:3:8: start: this place is inside a barrier (got a place in mere, a lake, expected a place that can be walked to)',
  ],
  ['a line', '{ feature: beck-2 }', 'T:3:19: start.feature: a line is too long to be a place'],
  ['two ways', '{ feature: old-cairn, at: [1, 2] }', 'T:3:8: start is not as it should be'],
  [
    'NaN',
    '{ at: [.nan, 500995] }',
    'T:3:15: start.at[0] is not as it should be (got NaN, expected a number)',
  ],
  [
    'bad grid',
    '{ grid: "QQ 1" }',
    'T:3:16: start.grid: grid reference not understood in EPSG:27700 (got "QQ 1"',
  ],
  ['other land', '{ lonLat: [10, 47] }', 'T:3:18: start.lonLat: place outside the area of EPSG:27700'],
])('a wrong start: %s', (_, start, message) => {
  expect(said(SHORT.replace('{ feature: old-cairn }', start))).toContain(message);
});

test.each([
  [
    'conditions: { visibility: -5 }',
    'T:5:27: conditions.visibility is not as it should be (got -5, expected a number of metres from 1 to 100000)',
  ],
  ['conditions: { visibility: .nan }', 'got NaN'],
  [
    'conditions: { visibilty: 5 }',
    'T:5:15: conditions.visibilty is not a key known here; did you mean visibility?',
  ],
  ['conditions: { ground: satruated }', 'did you mean saturated?'],
  ['party: { speed: tobbler }', 'did you mean tobler?'],
  [
    'party: { set: { bearingDegress: 3 } }',
    'T:5:17: party.set.bearingDegress is not a key known here; did you mean bearingDegrees?',
  ],
  ['trails: 5', 'T:5:1: trails is not a key known here; did you mean trials?'],
  ['trials: 0', 'expected a whole number from 1 to 10000000'],
  ['seed: 1.5', 'expected a whole number'],
  [
    'features: { beck: { exists: 0.5 } }',
    'T:5:19: features.beck: the terrain has no such feature; did you mean beck-2? (got "beck", expected an id of the terrain',
  ],
  ['features: { beck2: { exists: 0.5 } }', 'did you mean beck-2?'],
  [
    'features: { beck-2: { exists: 1.5 } }',
    'T:5:31: features.beck-2.exists is not as it should be (got 1.5, expected a number from 0 to 1)',
  ],
  ['routes: [ { name: x } ]', 'expected exactly one of legs or line'],
  [
    'routes: [ { name: x, legs: [] } ]',
    'T:5:28: routes[0].legs is not as it should be (got an empty list, expected a list of 1 to 100 entries)',
  ],
  ['routes: [ { name: x, legs: [ { technique: handrial, along: beck-2 } ] } ]', 'did you mean handrail?'],
  [
    'routes: [ { name: x, legs: [ { technique: handrail, along: beck } ] } ]',
    'a handrail leg says how far it goes',
  ],
  [
    'routes: [ { name: x, legs: [ { technique: handrail, along: beck3, metres: 9 } ] } ]',
    'did you mean beck-2?',
  ],
  [
    'routes: [ { name: x, legs: [ { technique: handrail, along: old-cairn, metres: 9 } ] } ]',
    'a point cannot be followed',
  ],
  ['routes: [ { name: x, legs: [ { technique: bearing } ] } ]', 'a bearing leg says to what (expected to)'],
  ['routes: [ { name: x, legs: [ { technique: bearing, to: tarrget } ] } ]', 'did you mean target?'],
  [
    'routes: [ { name: x, legs: [ { technique: bearing, to: { at: [1, 2] } } ] } ]',
    'T:5:62: routes[0].legs[0].to.at: this place is off the map',
  ],
  ['version: 2', 'T:5:1: not readable'],
])('%s', (line, message) => {
  expect(said(`${SHORT}${line}`)).toContain(message);
});

test('a task of a later version is refused by name', () => {
  expect(said(SHORT.replace('version: 1', 'version: 7'))).toBe(
    'T: this task was written for a newer program (got version 7, expected version 1)',
  );
});

test('a target that is a feature takes its doubts under features', () => {
  expect(said(SHORT.replace('sinkhole-3 }', 'sinkhole-3, exists: 0.5 }'))).toContain(
    'under features: sinkhole-3:',
  );
  expect(said(SHORT.replace('sinkhole-3 }', 'sinkhole-3, kind: spring }'))).toContain('cannot give its kind');
});

test('a place that follows from the lines of the map can be named', () => {
  const task = resolved(SHORT.replace('old-cairn', 'end:beck-2/mouth'));
  expect(task.start.feature).toMatchObject({ kind: 'line-end', origin: 'derived' });
  expect(task.features.map((f) => f.id)).not.toContain('end:beck-2/mouth');
  expect(said(SHORT.replace('old-cairn', 'end:beck-2/moth'))).toContain('did you mean end:beck-2/mouth?');
});

test('what a task states of a place that no file holds holds for the start and on the ground', () => {
  const text = `${SHORT.replace('old-cairn', 'end:beck-2/mouth')}features: { 'end:beck-2/mouth': { exists: 0.25 } }\n`;
  const task = resolved(text);
  expect(task.start.feature!.doubt.exists).toBe(0.25);
  const terrain = flatTerrain();
  const ground = mapGround(terrain, deriveRelief(terrain.elevation), task.features, task.overrides);
  expect(ground.byId.get('end:beck-2/mouth')!.doubt.exists).toBe(0.25);
});

test('start and target at one place are refused', () => {
  expect(said(SHORT.replace('sinkhole-3', 'old-cairn'))).toContain('the target is where the party starts');
});

test('a drawn line without points is an empty route', () => {
  const text = `${SHORT}routes: [ { name: x, line: a.gpx } ]`;
  expect(() => resolved(text, () => [] as never)).toThrow(/this route is empty \(got 0 points in a\.gpx/);
});

test('doubt decays from the date of the map to the date of the task, unless the task says it', () => {
  // 1 % a year for walls, common practice: .97 × .99^6.9
  const dated = resolved(`${SHORT}conditions: { date: 2026-11-25 }`);
  const exists = dated.features.find((f) => f.id === 'long-wall')?.doubt.exists ?? 0;
  expect(exists).toBeCloseTo(0.97 * 0.99 ** 6.9, 4);
});
