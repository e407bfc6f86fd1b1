import { expect, test } from 'vitest';
import { kShortest } from '../../src/search/k-shortest.ts';
import { labelSearch } from '../../src/search/label-search.ts';
import {
  addEdge,
  createNetwork,
  type Network,
  type NetworkRoute,
  shortest,
} from '../../src/search/network.ts';
import { supportedUnbeaten } from '../../src/search/unbeaten.ts';

type Plain = Network<null>;

const additive = {
  start: null,
  extend: (label: { minutes: number; loss: number }, edge: { minutes: number; loss: number }) => ({
    minutes: label.minutes + edge.minutes,
    loss: label.loss + edge.loss,
    state: null,
  }),
  least: (edge: { minutes: number; loss: number }) => edge,
};

function places(route: Pick<NetworkRoute<null>, 'edges'>): string {
  return [route.edges[0]!.from, ...route.edges.map((e) => e.to)].join('-');
}

function withCosts(arcs: Record<string, Record<string, number | readonly [number, number]>>): Plain {
  const net = createNetwork<null>();
  for (const [from, tos] of Object.entries(arcs)) {
    for (const [to, cost] of Object.entries(tos)) {
      const [minutes, loss] = typeof cost === 'number' ? [cost, 0] : cost;
      addEdge(net, from, to, { minutes, loss, payload: null });
    }
  }
  return net;
}

// checks F.yen: Yen JY (1971) Management Science 17(11):712-716, the example as encyclopaedias print it
test('the k shortest loopless routes of Yen’s example', () => {
  const net = withCosts({
    C: { D: 3, E: 2 },
    D: { F: 4 },
    E: { D: 1, F: 2, G: 3 },
    F: { G: 2, H: 1 },
    G: { H: 2 },
  });
  const found = kShortest(net, 'C', 'H', 20, (e) => e.minutes).map((r) => `${places(r)} ${r.minutes}`);
  expect(found.slice(0, 2)).toEqual(['C-E-F-H 5', 'C-E-G-H 7']);
  expect(found.slice(2, 5).sort()).toEqual(['C-D-F-H 8', 'C-E-D-F-H 8', 'C-E-F-G-H 8']);
  expect(found.slice(5).sort()).toEqual(['C-D-F-G-H 11', 'C-E-D-F-G-H 11']);
});

// checks F.astar.romania: Russell & Norvig, Artificial Intelligence: A Modern Approach; numbers from memory, optimum recomputed
test('the road map of Romania: 418 km, not the greedy 450', () => {
  const roads: [string, string, number][] = [
    ['A', 'Z', 75],
    ['Z', 'O', 71],
    ['O', 'S', 151],
    ['A', 'T', 118],
    ['T', 'L', 111],
    ['L', 'M', 70],
    ['M', 'D', 75],
    ['D', 'C', 120],
    ['A', 'S', 140],
    ['S', 'F', 99],
    ['S', 'R', 80],
    ['R', 'C', 146],
    ['R', 'P', 97],
    ['P', 'C', 138],
    ['F', 'B', 211],
    ['P', 'B', 101],
  ];
  const net = createNetwork<null>();
  for (const [a, b, km] of roads) {
    addEdge(net, a, b, { minutes: km, loss: 0, payload: null });
    addEdge(net, b, a, { minutes: km, loss: 0, payload: null });
  }
  const route = shortest(net, 'A', 'B', (e) => e.minutes)!;
  expect(places(route)).toBe('A-S-R-P-B');
  expect(route.minutes).toBe(418);
  expect(kShortest(net, 'A', 'B', 2, (e) => e.minutes).map((r) => r.minutes)).toEqual([418, 450]);
});

// checks F.hansen: Hansen P (1980) Bicriterion path problems, LNEMS 177:109-127; construction from memory, count computed
test('Hansen’s family: all 16 routes are unbeaten and all are kept', () => {
  const net = createNetwork<null>();
  for (let i = 0; i < 4; i++) {
    addEdge(net, `${i}`, `${i + 1}`, { minutes: 2 ** i, loss: 0, payload: null });
    addEdge(net, `${i}`, `${i + 1}`, { minutes: 0, loss: 2 ** i, payload: null });
  }
  const { routes, complete } = labelSearch(net, '0', '4', additive);
  expect(complete).toBe(true);
  expect(routes.map((r) => [r.minutes, r.loss])).toEqual(Array.from({ length: 16 }, (_, m) => [m, 15 - m]));
  // all on one line of the hull, so all are supported too
  expect(supportedUnbeaten(net, '0', '4').map((r) => r.minutes)).toEqual(
    Array.from({ length: 16 }, (_, m) => m),
  );
});

// checks F.biobj.small: made for the checks, enumerated there; algorithm Martins EQV (1984) EJOR 16(2):236-245
test('the small biobjective network', () => {
  const net = withCosts({
    S: { A: [1, 6], B: [3, 3], C: [6, 1] },
    A: { T: [4, 4], B: [1, 1] },
    B: { T: [2, 2] },
    C: { T: [1, 1], B: [1, 1] },
  });
  const expected = ['S-A-B-T 4 9', 'S-B-T 5 5', 'S-C-T 7 2'];
  const said = (r: NetworkRoute<null>) => `${places(r)} ${r.minutes} ${r.loss}`;
  expect(labelSearch(net, 'S', 'T', additive).routes.map(said)).toEqual(expected);
  expect(supportedUnbeaten(net, 'S', 'T').map(said)).toEqual(expected);
});
