import { expect, test } from 'vitest';
import { kShortest } from '../../src/search/k-shortest.ts';
import { labelSearch } from '../../src/search/label-search.ts';
import {
  addEdge,
  createNetwork,
  type Edge,
  edgesOut,
  type Network,
  shortest,
} from '../../src/search/network.ts';
import { supportedUnbeaten } from '../../src/search/unbeaten.ts';
import { stream } from './ground.ts';

interface Kind {
  readonly metres: number;
  readonly sure: boolean;
}

function randomNetwork(seed: number): Network<Kind> {
  const next = stream(seed);
  const pick = (n: number) => Math.floor(next() * n);
  const net = createNetwork<Kind>();
  const places = 5 + pick(3);
  const edges = 8 + pick(10);
  for (let i = 0; i < edges; i++) {
    const cost = { minutes: pick(12), loss: pick(12), payload: { metres: 1 + pick(9), sure: pick(3) === 0 } };
    addEdge(net, `${pick(places)}`, `${pick(places)}`, cost);
  }
  addEdge(net, '0', '1', { minutes: 40, loss: 40, payload: { metres: 40, sure: false } });
  return net;
}

/** Every walk without a repeated place, or with at most `most` edges when places may repeat. */
function everyWalk(
  net: Network<Kind>,
  from: string,
  to: string,
  most: number,
  repeats: boolean,
): Edge<Kind>[][] {
  const found: Edge<Kind>[][] = [];
  const walk = (at: string, edges: Edge<Kind>[]) => {
    if (at === to) return void found.push(edges);
    if (edges.length === most) return;
    for (const e of edgesOut(net, at)) {
      if (!repeats && (e.to === from || edges.some((b) => b.to === e.to))) continue;
      walk(e.to, [...edges, e]);
    }
  };
  walk(from, []);
  return found;
}

const sum = (edges: readonly Edge<Kind>[], of: 'minutes' | 'loss') => edges.reduce((s, e) => s + e[of], 0);
type Pair = readonly [number, number];

function unbeatenPairs(pairs: readonly Pair[]): Pair[] {
  const beaten = ([m, l]: Pair) => pairs.some(([a, b]) => a <= m && b <= l && (a < m || b < l));
  const kept = pairs.filter((p) => !beaten(p)).map((p) => p.join(' '));
  return [...new Set(kept)]
    .map((p) => p.split(' ').map(Number) as [number, number])
    .sort((a, b) => a[0] - b[0]);
}

/** Pairs that no segment between two others passes strictly below. */
function onHull(front: readonly Pair[]): Pair[] {
  return front.filter(
    ([m, l]) =>
      !front.some(([a, b]) =>
        front.some(([c, d]) => a < m && m < c && b + ((d - b) * (m - a)) / (c - a) < l - 1e-9),
      ),
  );
}

const SEEDS = Array.from({ length: 150 }, (_, i) => i + 1);

test('shortest, k shortest, supported and all unbeaten equal enumeration on 150 random networks', () => {
  for (const seed of SEEDS) {
    const net = randomNetwork(seed);
    const walks = everyWalk(net, '0', '1', 99, false);
    const minutes = walks.map((w) => sum(w, 'minutes')).sort((a, b) => a - b);
    expect(shortest(net, '0', '1', (e) => e.minutes)!.minutes, `seed ${seed}`).toBe(minutes[0]);

    const k = kShortest(net, '0', '1', 12, (e) => e.minutes);
    expect(
      k.map((r) => r.minutes),
      `seed ${seed}`,
    ).toEqual(minutes.slice(0, 12));
    expect(new Set(k.map((r) => r.edges.map((e) => e.id).join(' '))).size).toBe(k.length);

    const front = unbeatenPairs(walks.map((w) => [sum(w, 'minutes'), sum(w, 'loss')]));
    const labels = labelSearch(net, '0', '1', {
      start: null,
      extend: (at, e) => ({ minutes: at.minutes + e.minutes, loss: at.loss + e.loss, state: null }),
      least: (e) => e,
    });
    expect(labels.complete).toBe(true);
    expect(
      labels.routes.map((r) => [r.minutes, r.loss]),
      `seed ${seed}`,
    ).toEqual(front);
    expect(
      supportedUnbeaten(net, '0', '1').map((r) => [r.minutes, r.loss]),
      `seed ${seed}`,
    ).toEqual(onHull(front));
  }
});

/** Doubt grows with the metres since the last sure place; arriving doubtful costs its square. A sure place resets it. */
function doubtful(label: { minutes: number; loss: number; state: number }, edge: Edge<Kind>) {
  const since = label.state + edge.payload.metres;
  return {
    minutes: label.minutes + edge.minutes + 1,
    loss: label.loss + (edge.payload.sure || edge.to === '1' ? since * since : 0),
    state: edge.payload.sure ? 0 : since,
  };
}

test('labels that carry doubt since the last sure place equal enumeration, walks that come back included', () => {
  for (const seed of SEEDS.slice(0, 60)) {
    const net = randomNetwork(seed);
    const walks = everyWalk(net, '0', '1', 7, true);
    const pairs = walks.map((walk): Pair => {
      const end = walk.reduce(doubtful, { minutes: 0, loss: 0, state: 0 });
      return [end.minutes, end.loss];
    });
    const { routes } = labelSearch(net, '0', '1', {
      start: 0,
      extend: doubtful,
      covers: (a, b) => a <= b,
      least: (e) => ({ minutes: e.minutes + 1, loss: 0 }),
    });
    const short = routes.filter((r) => r.edges.length <= 7).map((r) => [r.minutes, r.loss]);
    const front = unbeatenPairs([...pairs, ...routes.map((r): Pair => [r.minutes, r.loss])]);
    // longer walks than were enumerated may beat some of them, never the other way round
    expect(
      routes.map((r) => [r.minutes, r.loss]),
      `seed ${seed}`,
    ).toEqual(front);
    expect(short.length).toBeGreaterThan(0);
    for (const pair of short) expect(pairs).toContainEqual(pair);
  }
});

test('a detour to a sure place is kept beside the fast line, though both meet at the same place', () => {
  const net = createNetwork<Kind>();
  const edge = (from: string, to: string, minutes: number, metres: number, sure = false) =>
    addEdge(net, from, to, { minutes, loss: 0, payload: { metres, sure } });
  edge('0', 'meet', 5, 5);
  edge('0', 'tarn', 4, 1, true);
  edge('tarn', 'meet', 4, 1);
  edge('meet', '1', 5, 3);
  const search = (covers?: (a: number, b: number) => boolean) =>
    labelSearch(net, '0', '1', { start: 0, extend: doubtful, ...(covers && { covers }) }).routes.map((r) => [
      r.minutes,
      r.loss,
    ]);
  expect(search((a, b) => a <= b)).toEqual([
    [12, 64],
    [16, 17],
  ]);
});

test('a target that cannot be reached, an unknown place, start = target', () => {
  const net = createNetwork<Kind>();
  const payload = { metres: 1, sure: false };
  addEdge(net, 'b', 'a', { minutes: 1, loss: 1, payload });
  addEdge(net, 'a', 'c', { minutes: 1, loss: 1, payload });
  const problem = { start: 0, extend: doubtful, covers: (a: number, b: number) => a <= b };
  for (const target of ['b', 'nowhere']) {
    expect(shortest(net, 'a', target, (e) => e.minutes)).toBeNull();
    expect(kShortest(net, 'a', target, 3, (e) => e.minutes)).toEqual([]);
    expect(supportedUnbeaten(net, 'a', target)).toEqual([]);
    expect(labelSearch(net, 'a', target, problem)).toEqual({ routes: [], complete: true });
  }
  expect(shortest(net, 'a', 'a', (e) => e.minutes)).toEqual({ edges: [], minutes: 0, loss: 0 });
  expect(labelSearch(net, 'a', 'a', problem).routes).toHaveLength(1);
  expect(supportedUnbeaten(net, 'a', 'a')).toEqual([{ edges: [], minutes: 0, loss: 0 }]);
  // an edge closed by its weight is no edge
  expect(shortest(net, 'b', 'c', (e) => (e.to === 'c' ? Infinity : 1))).toBeNull();
});

test('an edge that cannot be summed is refused, and a search that outgrows its limits says so', () => {
  const net = createNetwork<Kind>();
  const payload = { metres: 1, sure: false };
  for (const minutes of [-1, Number.NaN, Infinity]) {
    expect(() => addEdge(net, 'a', 'b', { minutes, loss: 0, payload })).toThrow(RangeError);
  }
  for (let i = 0; i < 18; i++) {
    addEdge(net, `${i}`, `${i + 1}`, { minutes: 2 ** i, loss: 0, payload });
    addEdge(net, `${i}`, `${i + 1}`, { minutes: 0, loss: 2 ** i, payload });
  }
  const { routes, complete } = labelSearch(
    net,
    '0',
    '18',
    { start: 0, extend: (at, e) => ({ ...at, minutes: at.minutes + e.minutes, loss: at.loss + e.loss }) },
    { perPlace: 50 },
  );
  expect(complete).toBe(false);
  expect(routes.length).toBeGreaterThan(0);
});
