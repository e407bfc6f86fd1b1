import {
  type Barred,
  type Edge,
  type Network,
  type NetworkRoute,
  routeOf,
  shortest,
  type Weight,
} from './network.ts';

/**
 * The k routes of least weight that visit no place twice, lightest first (Yen 1971; deviations only behind the
 * parent's own, Lawler 1972). Routes that differ by a parallel edge count as two.
 *
 * @returns fewer than k when there are no more; empty when the target cannot be reached.
 */
export function kShortest<P>(
  network: Network<P>,
  from: string,
  to: string,
  k: number,
  weight: Weight<P>,
): NetworkRoute<P>[] {
  const first = shortest(network, from, to, weight);
  if (first === null || k < 1) return [];
  const taken: Found<P>[] = [];
  const waiting: Found<P>[] = [{ route: first, weight: total(first.edges, weight), deviates: 0 }];
  const seen = new Set([nameOf(first.edges)]);
  while (waiting.length > 0) {
    const next = lightestOf(waiting);
    taken.push(next);
    if (taken.length >= k) break;
    for (let i = next.deviates; i < next.route.edges.length; i++) {
      const edges = deviation(network, next.route.edges, i, to, weight, taken);
      if (edges === null || seen.has(nameOf(edges))) continue;
      seen.add(nameOf(edges));
      waiting.push({ route: routeOf(edges), weight: total(edges, weight), deviates: i });
    }
  }
  return taken.map((found) => found.route);
}

interface Found<P> {
  readonly route: NetworkRoute<P>;
  readonly weight: number;
  /** Edge at which it leaves its parent. */
  readonly deviates: number;
}

/** The best route that keeps the first `i` edges and then takes none that a taken route with the same beginning took. */
function deviation<P>(
  network: Network<P>,
  route: readonly Edge<P>[],
  i: number,
  to: string,
  weight: Weight<P>,
  taken: readonly Found<P>[],
): readonly Edge<P>[] | null {
  const beginning = route.slice(0, i);
  const barred: Barred = {
    edges: new Set(nextEdges(beginning, taken)),
    places: new Set(beginning.map((e) => e.from)),
  };
  const rest = shortest(network, route[i]!.from, to, weight, barred);
  return rest === null ? null : [...beginning, ...rest.edges];
}

function nextEdges<P>(beginning: readonly Edge<P>[], taken: readonly Found<P>[]): number[] {
  return taken
    .filter(({ route }) => beginning.every((edge, j) => route.edges[j]?.id === edge.id))
    .map(({ route }) => route.edges[beginning.length]?.id ?? -1);
}

/** Takes the lightest out, the first found in a tie. */
function lightestOf<P>(waiting: Found<P>[]): Found<P> {
  let best = 0;
  for (let i = 1; i < waiting.length; i++) if (waiting[i]!.weight < waiting[best]!.weight) best = i;
  return waiting.splice(best, 1)[0]!;
}

function total<P>(edges: readonly Edge<P>[], weight: Weight<P>): number {
  return edges.reduce((sum, edge) => sum + weight(edge), 0);
}

function nameOf<P>(edges: readonly Edge<P>[]): string {
  return edges.map((edge) => edge.id).join(' ');
}
