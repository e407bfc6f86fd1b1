import { distance } from '../../src/math/plane.ts';
import { newStream, nextUniform, type Stream, startStream } from '../../src/math/random.ts';
import { SKILL_LEVELS } from '../../src/party/party.ts';
import { skillOf } from '../../src/party/presets.ts';
import type { Task } from '../../src/study/task.ts';

/** Tasks that people set, relative to the repository. */
export const WRITTEN = [
  'terrains/demo/demo.task.yaml',
  'terrains/demo/gauge-three.task.yaml',
  'terrains/demo/lichen-frame.task.yaml',
  'terrains/demo/snow-stake.task.yaml',
  'terrains/demo/rime-post.task.yaml',
  'terrains/demo/packers-way.task.yaml',
  'terrains/demo/night.task.yaml',
  'terrains/north-shore/second-col.task.yaml',
  'terrains/langeberg/flag.task.yaml',
];

const STARTS = new Set([
  'gate',
  'stile',
  'ruin',
  'fold',
  'building',
  'cairn',
  'junction',
  'bridge',
  'crossing',
]);
const TARGETS = new Set([
  'spring',
  'well',
  'boulder',
  'cairn',
  'post',
  'sinkhole',
  'boundary-stone',
  'pool',
  'confluence',
  'stream-end',
]);

/** Task number `n` on the ground of another: start, target, day and party drawn from the stream of its number. */
export function generated(of: Task, all: Task['features'], n: number): Task {
  const stream = newStream();
  startStream(stream, 20_26, n, 77, 0);
  const spots = all.flatMap((feature) =>
    feature.geometry.type === 'point' && feature.doubt.exists >= 0.5
      ? [{ feature, at: feature.geometry.at }]
      : [],
  );
  const starts = spots.filter(({ feature }) => STARTS.has(feature.kind));
  const targets = spots.filter(({ feature }) => TARGETS.has(feature.kind));
  for (;;) {
    const start = one(stream, starts);
    const target = one(stream, targets);
    const away = distance(start.at, target.at);
    const skill = one(stream, SKILL_LEVELS);
    const above = one(stream, [60, 120, 250, 600]);
    const ground = one(stream, ['normal', 'wet', 'saturated'] as const);
    const light = one(stream, ['day', 'day', 'day', 'dark'] as const);
    if (away < 500 || away > 2200) continue;
    return {
      ...of,
      name: `generated ${n}`,
      start,
      target,
      conditions: { ...of.conditions, visibility: { below: above, above, cloudBase: null }, ground, light },
      party: { ...of.party, skill, set: skillOf(skill) },
      limits: { ...of.limits, minutes: 120, turnRoundMinutes: 90 },
      overrides: {},
      routes: [],
      seed: 100 + n,
    };
  }
}

function one<T>(stream: Stream, list: readonly T[]): T {
  return list[Math.min(list.length - 1, Math.floor(nextUniform(stream) * list.length))]!;
}
