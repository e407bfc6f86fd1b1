import createGraph, { type Graph, type Link } from 'ngraph.graph';
import { aStar } from 'ngraph.path';

/**
 * Search over a network of places, apart from what the places and edges mean.
 *
 *     const net = createNetwork<Payload>();
 *     addEdge(net, 'cairn', 'weir', { minutes: 12, loss: 0.02, payload });   // directed; parallel edges are kept
 *     shortest(net, 'cairn', 'weir', (e) => e.minutes)                       // network.ts
 *     kShortest(net, 'cairn', 'weir', 5, (e) => e.minutes)                   // k-shortest.ts: loopless
 *     supportedUnbeaten(net, 'cairn', 'weir')                                // unbeaten.ts: on the hull of (minutes, loss)
 *     labelSearch(net, 'cairn', 'weir', problem)                             // label-search.ts: every unbeaten, with a state
 *
 * `loss` is any amount that adds up along a route and is better when smaller: expected misses, or −ln(share that gets through).
 */
export interface Edge<P> {
  /** Number of the edge in order of adding. */
  readonly id: number;
  readonly from: string;
  readonly to: string;
  /** ≥ 0. */
  readonly minutes: number;
  /** ≥ 0. */
  readonly loss: number;
  readonly payload: P;
}

export interface Network<P> {
  readonly graph: Graph<undefined, Edge<P>>;
  readonly edges: Edge<P>[];
}

/** A route through the network: its edges in order (none when start = target), and what they add up to. */
export interface NetworkRoute<P> {
  readonly edges: readonly Edge<P>[];
  readonly minutes: number;
  readonly loss: number;
}

export type Weight<P> = (edge: Edge<P>) => number;

/** Edges and places that a search may not use; the start itself is never asked. */
export interface Barred {
  readonly edges: ReadonlySet<number>;
  readonly places: ReadonlySet<string>;
}

export function createNetwork<P>(): Network<P> {
  return { graph: createGraph<undefined, Edge<P>>({ multigraph: true }), edges: [] };
}

/** @throws RangeError for minutes or a loss that is negative, infinite or NaN. Leave out an edge that cannot be walked. */
export function addEdge<P>(
  network: Network<P>,
  from: string,
  to: string,
  cost: { readonly minutes: number; readonly loss: number; readonly payload: P },
): Edge<P> {
  const { minutes, loss, payload } = cost;
  if (!(minutes >= 0 && loss >= 0 && Number.isFinite(minutes) && Number.isFinite(loss))) {
    throw new RangeError(
      `edge ${from} → ${to}: ${minutes} min, loss ${loss}; both must be finite and not negative`,
    );
  }
  const edge: Edge<P> = { id: network.edges.length, from, to, minutes, loss, payload };
  network.edges.push(edge);
  network.graph.addLink(from, to, edge);
  return edge;
}

export function edgesOut<P>(network: Network<P>, place: string): Edge<P>[] {
  const edges: Edge<P>[] = [];
  for (const link of network.graph.getLinks(place) ?? []) if (link.fromId === place) edges.push(link.data);
  return edges;
}

export function edgesIn<P>(network: Network<P>, place: string): Edge<P>[] {
  const edges: Edge<P>[] = [];
  for (const link of network.graph.getLinks(place) ?? []) if (link.toId === place) edges.push(link.data);
  return edges;
}

export function routeOf<P>(edges: readonly Edge<P>[]): NetworkRoute<P> {
  let minutes = 0;
  let loss = 0;
  for (const edge of edges) {
    minutes += edge.minutes;
    loss += edge.loss;
  }
  return { edges, minutes, loss };
}

/**
 * The route of least total weight, by ngraph.path's A* without an estimate (the places have no common metric here).
 *
 * @param weight ≥ 0 for every edge; Infinity closes it.
 * @returns null when a place is unknown or the target cannot be reached.
 */
export function shortest<P>(
  network: Network<P>,
  from: string,
  to: string,
  weight: Weight<P>,
  barred?: Barred,
): NetworkRoute<P> | null {
  const { graph } = network;
  if (!graph.hasNode(from) || !graph.hasNode(to)) return null;
  if (from === to) return routeOf<P>([]);
  const finder = aStar(openPart(graph, weight, barred), {
    oriented: true,
    distance: (_to, _from, link: Link<Edge<P>>) => weight(link.data),
  });
  // the finder gives places from the target back; when it fails, the target alone
  const places = finder.find(from, to).reverse();
  if (places[0]?.id !== from || places.at(-1)?.id !== to) return null;
  const edges: Edge<P>[] = [];
  for (let i = 1; i < places.length; i++) {
    edges.push(lightest(network, String(places[i - 1]!.id), String(places[i]!.id), weight, barred));
  }
  return routeOf(edges);
}

/** What the finder reads of a graph, without barred and closed edges: it would queue the place behind a blocked one. */
function openPart<P>(
  graph: Graph<undefined, Edge<P>>,
  weight: Weight<P>,
  barred: Barred | undefined,
): Graph<undefined, Edge<P>> {
  const forEachLinkedNode: typeof graph.forEachLinkedNode = (id, visit) => {
    for (const link of graph.getLinks(id) ?? []) {
      if (link.fromId !== id || !isOpen(link.data, weight, barred)) continue;
      visit(graph.getNode(link.toId)!, link);
    }
  };
  return { ...graph, forEachLinkedNode };
}

function isOpen<P>(edge: Edge<P>, weight: Weight<P>, barred: Barred | undefined): boolean {
  if (barred !== undefined && (barred.edges.has(edge.id) || barred.places.has(edge.to))) return false;
  return weight(edge) < Number.POSITIVE_INFINITY;
}

/** The finder names places only; of parallel edges it took the lightest, the first added in a tie. */
function lightest<P>(
  network: Network<P>,
  from: string,
  to: string,
  weight: Weight<P>,
  barred: Barred | undefined,
): Edge<P> {
  let best: Edge<P> | undefined;
  for (const edge of edgesOut(network, from)) {
    if (edge.to !== to || !isOpen(edge, weight, barred)) continue;
    if (best === undefined || weight(edge) < weight(best)) best = edge;
  }
  return best!;
}
