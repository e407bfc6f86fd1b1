import { expect, it } from 'vitest';
import type { Point } from '../../src/math/plane.ts';
import { findPlans } from '../../src/route/find.ts';
import { compare } from '../../src/study/compare.ts';
import type { Task } from '../../src/study/task.ts';
import { walkHere } from '../../src/walk/jobs.ts';
import { CLEAR, errand, line, moor, point } from '../route/moor.ts';

it('50 000 features on 20 × 20 km: the search looks at what is about the task', () => {
  const size = 20_000;
  const well = point('well', 'well', [2200, 1500]);
  const many = Array.from({ length: 50_000 }, (_, i) => {
    const at: Point = [(i * 7919) % size, (i * 104_729) % size];
    return i % 4 === 0
      ? line(`l${i}`, i % 8 === 0 ? 'wall' : 'stream', at, [at[0] + ((i * 31) % 300) - 150, at[1] + 120])
      : point(`p${i}`, (['boulder', 'cairn', 'ruin'] as const)[i % 3]!, at);
  });
  const ground = moor([...many, well], { size });
  const mist = { ...CLEAR, visibility: { below: 150, above: 150, cloudBase: null } };
  const before = process.cpuUsage();
  const found = findPlans(errand([300, 1500], well, 'competent', mist), ground, { count: 6 });
  const { user } = process.cpuUsage(before);
  expect(found).toHaveLength(6);
  expect(user / 1e6).toBeLessThan(20);
});

it('50 000 features on 3 × 3 km, many lines from one spot: the ground within 15 s, the search within a minute', () => {
  const size = 3000;
  const well = point('well', 'well', [2200, 1500]);
  // 7919 and 104 729 make 750 starts of lines, each of them the start of some 16
  const many = Array.from({ length: 50_000 }, (_, i) => {
    const at: Point = [(i * 7919) % size, (i * 104_729) % size];
    return i % 4 === 0
      ? line(`l${i}`, i % 8 === 0 ? 'wall' : 'stream', at, [at[0] + ((i * 31) % 300) - 150, at[1] + 120])
      : point(`p${i}`, (['boulder', 'cairn', 'ruin'] as const)[i % 3]!, at);
  });
  const before = process.cpuUsage();
  const ground = moor([...many, well], { size });
  const built = process.cpuUsage(before).user / 1e6;
  const mist = { ...CLEAR, visibility: { below: 150, above: 150, cloudBase: null } };
  const found = findPlans(errand([300, 1500], well, 'competent', mist), ground, { count: 6 });
  expect(found).toHaveLength(6);
  expect(built).toBeLessThan(15);
  expect(process.cpuUsage(before).user / 1e6).toBeLessThan(60);
});

it('50 000 features on 3 × 3 km: routes are found and walked within two minutes', async () => {
  const size = 3000;
  const well = point('well', 'well', [2200, 1500]);
  const features = Array.from({ length: 50_000 }, (_, i) => {
    const at: Point = [(i * 7919) % size, (i * 104_729) % size];
    return i % 4 === 0
      ? line(`l${i}`, i % 8 === 0 ? 'wall' : 'stream', at, [at[0] + ((i * 31) % 300) - 150, at[1] + 120])
      : point(`p${i}`, (['boulder', 'cairn', 'ruin'] as const)[i % 3]!, at);
  });
  const { terrain, relief } = moor([well], { size });
  const mist = { ...CLEAR, visibility: { below: 150, above: 150, cloudBase: null } };
  const task = {
    ...errand([300, 1500], well, 'competent', mist),
    routes: [],
    features: [...features, well],
    candidates: 2,
    trials: 200,
    seed: 1,
    seeing: 'definite',
  } as unknown as Task;
  const before = process.cpuUsage();
  const { walked } = await compare({ task, terrain, relief }, { walkersFor: walkHere });
  expect(walked).toHaveLength(2);
  expect(process.cpuUsage(before).user / 1e6).toBeLessThan(120);
});
