import { networkDistances } from './distances.ts';
import {
  type Edge,
  edgesOut,
  type Network,
  type NetworkRoute,
  routeOf,
  shortest,
  type Weight,
} from './network.ts';

/** Two weighted sums closer than this share are a tie. */
const TIE = 1e-9;

export interface SweepLimits {
  /** Most sweeps, and most routes looked at between two neighbours of the hull. */
  readonly sweeps: number;
  readonly ties: number;
}

/**
 * Every supported unbeaten pair (minutes, loss): those that some weighted sum α·minutes + β·loss makes least. Corners of the hull
 * by exact weights (Aneja & Nair 1979), each sweep one search; then what lies on the hull between two corners. One route
 * per pair, by minutes. Unbeaten pairs above the hull need `labelSearch`.
 *
 * @returns empty when the target cannot be reached.
 */
export function supportedUnbeaten<P>(
  network: Network<P>,
  from: string,
  to: string,
  limits: SweepLimits = { sweeps: 400, ties: 2000 },
): NetworkRoute<P>[] {
  const fastest = shortest(network, from, to, (e) => e.minutes);
  const surest = shortest(network, from, to, (e) => e.loss);
  if (fastest === null || surest === null) return [];
  const found = [fastest, surest];
  const open: [NetworkRoute<P>, NetworkRoute<P>][] = [[fastest, surest]];
  for (let sweep = 0; sweep < limits.sweeps; sweep++) {
    const pair = open.pop();
    if (pair === undefined) break;
    const [a, b] = pair;
    const { weight, value } = facet(a, b);
    if (value === 0) continue;
    const c = shortest(network, from, to, weight)!;
    if (weightOf(c, weight) < value * (1 - TIE)) {
      found.push(c);
      open.push([a, c], [c, b]);
    } else {
      found.push(...onFacet(network, from, to, weight, value, limits.ties));
    }
  }
  return unbeaten(found);
}

/** The weights that make two routes equal, and what both then weigh. */
function facet<P>(a: NetworkRoute<P>, b: NetworkRoute<P>): { weight: Weight<P>; value: number } {
  const alpha = Math.abs(a.loss - b.loss);
  const beta = Math.abs(b.minutes - a.minutes);
  const weight: Weight<P> = (e) => alpha * e.minutes + beta * e.loss;
  return { weight, value: alpha * a.minutes + beta * a.loss };
}

function weightOf<P>(route: NetworkRoute<P>, weight: Weight<P>): number {
  return route.edges.reduce((sum, edge) => sum + weight(edge), 0);
}

/** Routes without a loop whose weight is the least one: depth first over edges that some lightest route uses. */
function onFacet<P>(
  network: Network<P>,
  from: string,
  to: string,
  weight: Weight<P>,
  value: number,
  most: number,
): NetworkRoute<P>[] {
  const left = networkDistances(network, to, 'to', weight);
  const routes: NetworkRoute<P>[] = [];
  const visited = new Set([from]);
  let steps = most;
  const walk = (at: string, weighed: number, edges: readonly Edge<P>[]): void => {
    if (at === to) {
      routes.push(routeOf(edges));
      return;
    }
    for (const edge of edgesOut(network, at)) {
      const sum = weighed + weight(edge);
      if (visited.has(edge.to) || sum + (left.get(edge.to) ?? Number.POSITIVE_INFINITY) > value * (1 + TIE))
        continue;
      if (steps-- <= 0) return;
      visited.add(edge.to);
      walk(edge.to, sum, [...edges, edge]);
      visited.delete(edge.to);
    }
  };
  walk(from, 0, []);
  return routes;
}

/** Routes that no other beats in minutes and loss, by minutes; of equal pairs the first stays. */
export function unbeaten<R extends { readonly minutes: number; readonly loss: number }>(
  routes: readonly R[],
): R[] {
  const kept: R[] = [];
  const order = routes.map((_, i) => i);
  order.sort((i, j) => {
    const a = routes[i]!;
    const b = routes[j]!;
    return a.minutes - b.minutes || a.loss - b.loss || i - j;
  });
  for (const i of order) {
    if (kept.length === 0 || routes[i]!.loss < kept.at(-1)!.loss) kept.push(routes[i]!);
  }
  return kept;
}
