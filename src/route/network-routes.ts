import { labelSearch } from '../search/label-search.ts';
import { type Edge, edgesOut, type Network, shortest } from '../search/network.ts';
import { knownTo, type PlaceDoubt, spreadOf } from './doubt-of-place.ts';
import type { Endgame } from './endgames.ts';
import type { Leg } from './leg.ts';
import { legsOf, START, TARGET } from './leg-network.ts';
import { KNOWN, lossOf, type Piece, throughPiece } from './pieces.ts';
import type { Planning } from './planning.ts';

const NETWORK_LAUNCHES = 24;
/** Kinds of endgame tried from a launch: the estimates of unlike ones do not compare well. */
const MOST_KINDS = 4;
/** −ln of half the share of another way: a way that loses so much more is not tried. */
const FAR_BEHIND = Math.LN2;
/** Minutes that a party would give for a unit of loss when it heads for a launch. */
const TRADES = [2, 30];

/** Unbeaten routes through the leg network, and the best way to every promising launch. */
export function networkRoutes(
  planning: Planning,
  network: Network<Piece>,
  endgames: readonly Endgame[],
): Leg[][] {
  const found: (readonly Edge<Piece>[])[] = [];
  const { routes } = labelSearch<Piece, PlaceDoubt>(network, START, TARGET, carrying(planning), {
    labels: 20_000,
    perPlace: 30,
  });
  for (const route of routes) found.push(route.edges);
  for (const last of endsFrom(network, START)) found.push([last]);
  for (const launch of promising(network, endgames, NETWORK_LAUNCHES)) {
    for (const trade of TRADES) {
      const macro = shortest(network, START, launch, (e) =>
        e.payload.last ? Number.POSITIVE_INFINITY : e.minutes + trade * e.loss,
      );
      if (!macro) continue;
      for (const last of bestEndgames(network, launch)) found.push([...macro.edges, last]);
    }
    // the estimates know too little of how a leg goes wrong to choose one way to a near launch alone
    for (const first of straightTo(network, launch))
      for (const last of bestEndgames(network, launch)) found.push([first, last]);
  }
  return found.map(legsOf);
}

/** A label search that carries what a party knows of its place: a piece begun in doubt loses more. */
function carrying(planning: Planning) {
  const sure = 2 * KNOWN * KNOWN * 1.5;
  return {
    start: knownTo(planning.errand.start.feature?.doubt.positionMetres ?? 1),
    extend(
      label: { readonly minutes: number; readonly loss: number; readonly state: PlaceDoubt },
      { payload, minutes, loss }: Edge<Piece>,
    ) {
      if (spreadOf(label.state) <= sure) {
        return { minutes: label.minutes + minutes, loss: label.loss + loss, state: payload.doubt };
      }
      const through = throughPiece(planning, payload.legs, payload.last, label.state);
      return {
        minutes: label.minutes + minutes,
        loss: label.loss + Math.max(loss, lossOf(through.share)),
        state: through.doubt,
      };
    },
    covers: (a: PlaceDoubt, b: PlaceDoubt) => spreadOf(a) <= Math.max(sure, spreadOf(b)),
    least: (edge: Edge<Piece>) => ({ minutes: edge.minutes, loss: edge.loss }),
  };
}

/** Ways from the start to a launch with no place between; those that lose far more than the surest of them are left out. */
function straightTo(network: Network<Piece>, launch: string): Edge<Piece>[] {
  const ways = edgesOut(network, START).filter((e) => e.to === launch);
  const least = Math.min(...ways.map((e) => e.loss));
  return ways.filter((e) => e.loss <= least + FAR_BEHIND).sort((a, b) => a.id - b.id);
}

/** Launches by the least loss of their endgames. */
function promising(network: Network<Piece>, endgames: readonly Endgame[], most: number): string[] {
  const launches = [...new Set(endgames.map((e) => e.launch))].filter((id) => id !== START);
  const loss = (id: string) =>
    Math.min(Number.POSITIVE_INFINITY, ...bestEndgames(network, id).map((e) => e.loss + e.minutes / 60));
  return launches
    .map((id) => ({ id, loss: loss(id) }))
    .sort((a, b) => a.loss - b.loss || (a.id < b.id ? -1 : 1))
    .slice(0, most)
    .map((l) => l.id);
}

function endsFrom(network: Network<Piece>, launch: string): Edge<Piece>[] {
  return edgesOut(network, launch)
    .filter((e) => e.payload.last)
    .sort((a, b) => a.id - b.id);
}

/** Of the endgames from a launch the surest of each kind, the surest first, and the quickest. */
function bestEndgames(network: Network<Piece>, launch: string): Edge<Piece>[] {
  const last = endsFrom(network, launch);
  const surest = new Map<string, Edge<Piece>>();
  for (const end of last) {
    const { legs } = end.payload;
    const kind = `${legs[0]!.technique} ${legs[legs.length - 1]!.technique}`;
    const best = surest.get(kind);
    if (best === undefined || end.loss < best.loss) surest.set(kind, end);
  }
  const best = [...surest.values()].sort((a, b) => a.loss - b.loss || a.id - b.id).slice(0, MOST_KINDS);
  const quickest = last.reduce<Edge<Piece> | null>(
    (a, b) => (a === null || b.minutes < a.minutes ? b : a),
    null,
  );
  return quickest === null || best.includes(quickest) ? best : [...best, quickest];
}
