import createGraph from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import manifest from '../../package.json';
import { PACE_STEPS } from '../../src/cost/surface.ts';
import { leastCostPath } from '../../src/search/a-star.ts';
import { type Bench, peerHere, timed } from './bench.ts';
import { edgesFrom, hills } from './hills.ts';

const SIDE = 500;

export const bench: Bench = {
  name: `least-cost path, one pair, ${SIDE} × ${SIDE}`,
  must: { ratio: 30 },
  rounds: 9,
  agree: 5e-6,
  async prepare() {
    const surface = hills(SIDE);
    const target = SIDE * SIDE - 1;
    const graph = createGraph<undefined, number>({ multigraph: false });
    for (let i = 0; i < SIDE * SIDE; i++) {
      for (const { to, seconds } of edgesFrom(surface, i)) graph.addLink(i, to, seconds);
    }
    const perCell = surface.cell * least(surface.pace) * least(surface.factor);
    const finder = aStar(graph, {
      oriented: true,
      distance: (_to, _from, link) => link.data,
      heuristic: (from, to) => {
        const a = Number(from.id);
        const b = Number(to.id);
        const dx = Math.abs((a % SIDE) - (b % SIDE));
        const dy = Math.abs(Math.floor(a / SIDE) - Math.floor(b / SIDE));
        return perCell * (Math.max(dx, dy) + (Math.SQRT2 - 1) * Math.min(dx, dy));
      },
    });
    return {
      data: `hills, seed 1, corner to corner, ${PACE_STEPS} pace steps; the graph is built beforehand`,
      ours: () =>
        timed(
          () => leastCostPath(surface, 0, target)!,
          (path) => path.seconds,
        ),
      peer: peerHere(`ngraph.path ${manifest.dependencies['ngraph.path']} aStar`, () => {
        const path = finder.find(0, target).reverse();
        let seconds = 0;
        for (let i = 1; i < path.length; i++) seconds += graph.getLink(path[i - 1]!.id, path[i]!.id)!.data;
        return seconds;
      }),
    };
  },
};

function least(values: Float32Array): number {
  return values.reduce((a, b) => Math.min(a, b));
}
