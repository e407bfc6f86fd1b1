import { afterEach, expect, test, vi } from 'vitest';
import { simulate } from '../../src/walk/simulate.ts';
import { hitsOf } from '../../src/walk/tally.ts';
import type { FromPage, FromWalker, ToWalker } from '../../viz/page/walker-messages.ts';
import { Pool, Superseded, shrinkingPieces, simulated, walkersOn } from '../../viz/page/worker/pool.ts';
import { serveWalker } from '../../viz/page/worker/walker.ts';
import { BENCH_DAY, benchParty, benchWorld, leg, route, spot } from '../walk/plain-ground.ts';

// the page's walkers and pools, on this thread and over real ports
const world = benchWorld({
  features: [spot('t', 'boulder', [0, 900])],
  start: [0, 0],
  target: spot('t', 'boulder', [0, 900]),
  party: benchParty('competent'),
  conditions: { ...BENCH_DAY, visibility: { below: 60, above: 60, cloudBase: null } },
});
const way = route(leg('bearing', [0, 0], [0, 900], { toFeature: 't' }));
const job = { do: 'simulate', route: way, seed: 3, from: 0, to: 200 } as const;
const soon = { name: 'dragged', soon: true };
const open: MessagePort[] = [];

afterEach(() => {
  for (const port of open.splice(0)) port.close();
  vi.unstubAllGlobals();
});

function channel(): MessageChannel {
  const ways = new MessageChannel();
  open.push(ways.port1, ways.port2);
  return ways;
}

/** A walker's ports, the prober's and the refiner's; what it answers is noted. */
function walker() {
  const self = { onmessage: (_: { data: FromPage }) => {} };
  vi.stubGlobal('self', self);
  serveWalker();
  const answers: FromWalker[] = [];
  const ports = ([0, 1] as const).map((rank) => {
    const { port1, port2 } = channel();
    self.onmessage({ data: { port: port2, rank } });
    const post = port2.postMessage.bind(port2);
    port2.postMessage = (message: FromWalker) => {
      answers.push(message);
      post(message);
    };
    return port1;
  }) as [MessagePort, MessagePort];
  ports[0].postMessage({ do: 'world', key: 'w', world } satisfies ToWalker);
  return { ports, answers, say: (data: FromPage) => self.onmessage({ data }) };
}

test('pieces are whole, large first, and come to what one walk of all attempts comes to', async () => {
  const sizes = shrinkingPieces(500, 2);
  expect(sizes.reduce((sum, size) => sum + size)).toBe(500);
  expect([...sizes].sort((a, b) => b - a)).toEqual(sizes);
  expect(sizes.at(-1)).toBeLessThan(10);
  const pool = new Pool([walker().ports[0], walker().ports[0]], true);
  const tally = await simulated(pool, 'w', job, soon, shrinkingPieces(200, 2));
  expect(tally).toEqual(simulate(world, way, 3, 0, 200));
  expect(hitsOf(tally)).toBeGreaterThan(0);
});

test('a worker that is held up holds nobody up: its pieces are walked by the other', async () => {
  const { port1: stuck } = channel();
  const pool = new Pool([stuck, walker().ports[0]], true);
  const tally = await simulated(pool, 'w', job, soon, shrinkingPieces(200, 2));
  expect(tally).toEqual(simulate(world, way, 3, 0, 200));
});

test('what is dropped ends at once, is not walked, and leaves room for what comes', async () => {
  const { ports, answers } = walker();
  const pool = new Pool([ports[0]], true);
  const outdated = simulated(pool, 'w', job, soon, Array(20).fill(10));
  pool.drop(({ name }) => name === 'dragged');
  await expect(outdated).rejects.toThrow(Superseded);
  const next = await pool.run('w', { ...job, to: 10 }, soon);
  expect(next).toEqual(simulate(world, way, 3, 0, 10));
  // all but the new one, which was sent last, were answered without a walk
  expect(answers.filter((a) => 'answer' in a)).toHaveLength(1);
});

test('what is wanted soon goes before what waits, in the pool and at the walker', async () => {
  const { ports } = walker();
  const done: string[] = [];
  const slow = walkersOn(new Pool([ports[1]]), 'w', 50);
  const race = [slow.run(job).then(() => done.push('refined'))];
  race.push(slow.run({ ...job, to: 50 }, true).then(() => done.push('raced')));
  const quick = new Pool([ports[0]], true);
  race.push(simulated(quick, 'w', job, soon, [50, 50, 50, 50]).then(() => done.push('dragged')));
  await Promise.all(race);
  expect(done).toEqual(['dragged', 'raced', 'refined']);
});

test('while the hand moves the map only what is urgent is walked; the rest goes on afterwards', async () => {
  const { ports, say } = walker();
  say({ waits: true });
  const done: string[] = [];
  const refined = walkersOn(new Pool([ports[1]]), 'w', 50).run({ ...job, to: 20 });
  refined.then(() => done.push('refined'));
  await new Pool([ports[0]], true).run('w', { ...job, to: 20 }, soon);
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect(done).toEqual([]);
  say({ waits: false });
  expect(await refined).toEqual(simulate(world, way, 3, 0, 20));
});

test('a walker on another world says so', async () => {
  const pool = new Pool([walker().ports[0]]);
  await expect(pool.run('older', { ...job, to: 10 }, soon)).rejects.toThrow(Superseded);
});
