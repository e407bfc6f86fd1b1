import FlatQueue from 'flatqueue';
import { networkDistances } from './distances.ts';
import { type Edge, edgesOut, type Network } from './network.ts';
import { unbeaten } from './unbeaten.ts';

/** What a partial route has come to: sums so far, and whatever the caller carries (a belief covariance, the last sure place). */
export interface Label<S> {
  readonly minutes: number;
  readonly loss: number;
  readonly state: S;
}

export interface LabelProblem<P, S> {
  readonly start: S;
  /**
   * A label taken over an edge: the new sums, neither less than before, and the new state. null when the edge cannot be walked in
   * this state.
   */
  extend(label: Label<S>, edge: Edge<P>): Label<S> | null;
  /**
   * True when a party in state `a` does at least as well as in `b` on every continuation. Must hold for a = b. Without it
   * all states at a place count as equal, which is right only when `extend` ignores the state.
   */
  covers?(a: S, b: S): boolean;
  /** The least that an edge adds in any state; prunes by what is still to come. Without it nothing is assumed. */
  least?(edge: Edge<P>): { readonly minutes: number; readonly loss: number };
}

export interface LabelLimits {
  /** Labels that may be taken up in all, and kept at one place; what goes beyond is dropped and said. */
  readonly labels: number;
  readonly perPlace: number;
  readonly minutes: number;
}

export interface LabelRoute<P, S> extends Label<S> {
  readonly edges: readonly Edge<P>[];
}

export interface LabelResult<P, S> {
  /** Unbeaten in (minutes, loss), by minutes. Empty when the target cannot be reached. */
  readonly routes: readonly LabelRoute<P, S>[];
  /** False when a limit cut the search: routes may be missing. */
  readonly complete: boolean;
}

const LIMITS: LabelLimits = { labels: 500_000, perPlace: 1000, minutes: Number.POSITIVE_INFINITY };

interface Node<P, S> extends Label<S> {
  readonly edge: Edge<P> | null;
  readonly before: Node<P, S> | null;
}

/**
 * Every unbeaten route by label setting (Martins 1984), with a state beside the two sums: a label is given up only when another
 * at its place is no worse in minutes, in loss and in state. Labels are taken up by minutes. A place may be visited twice
 * when that betters the state (out to a sure place and back).
 */
export function labelSearch<P, S>(
  network: Network<P>,
  from: string,
  to: string,
  problem: LabelProblem<P, S>,
  limits: Partial<LabelLimits> = {},
): LabelResult<P, S> {
  const { labels, perPlace, minutes: longest } = { ...LIMITS, ...limits };
  if (!network.graph.hasNode(from) || !network.graph.hasNode(to)) return { routes: [], complete: true };
  const least = problem.least;
  const minutesLeft = networkDistances(network, to, 'to', (e) => least?.(e).minutes ?? 0);
  const lossLeft = networkDistances(network, to, 'to', (e) => least?.(e).loss ?? 0);

  const kept = new Map<string, Node<P, S>[]>();
  const done: Node<P, S>[] = [];
  const beatenAtTarget = (minutes: number, loss: number): boolean =>
    done.some((d) => d.minutes <= minutes && d.loss <= loss);
  const coveredAt = (place: string, label: Label<S>): boolean =>
    (kept.get(place) ?? []).some(
      (k) =>
        k.minutes <= label.minutes &&
        k.loss <= label.loss &&
        (problem.covers?.(k.state, label.state) ?? true),
    );

  const queue = new FlatQueue<Node<P, S>>();
  if (minutesLeft.has(from))
    queue.push({ minutes: 0, loss: 0, state: problem.start, edge: null, before: null }, 0);
  let complete = true;
  for (let taken = 0; queue.length > 0; taken++) {
    const label = queue.pop()!;
    const place = label.edge?.to ?? from;
    if (beatenAtTarget(label.minutes + minutesLeft.get(place)!, label.loss + lossLeft.get(place)!)) continue;
    if (place === to) {
      done.push(label);
      continue;
    }
    if (coveredAt(place, label)) continue;
    const here = kept.get(place) ?? [];
    if (taken >= labels) return { routes: routesOf(done), complete: false };
    if (here.length >= perPlace) {
      complete = false;
      continue;
    }
    here.push(label);
    kept.set(place, here);
    for (const edge of edgesOut(network, place)) {
      const ahead = minutesLeft.get(edge.to);
      if (ahead === undefined) continue;
      const next = problem.extend(label, edge);
      if (next === null || next.minutes + ahead > longest) continue;
      if (!(next.minutes >= label.minutes && next.loss >= label.loss)) {
        throw new RangeError(
          `label search: ${edge.from} → ${edge.to} lowered a sum (${next.minutes} min, loss ${next.loss})`,
        );
      }
      if (beatenAtTarget(next.minutes + ahead, next.loss + lossLeft.get(edge.to)!)) continue;
      if (edge.to !== to && coveredAt(edge.to, next)) continue;
      queue.push(
        { minutes: next.minutes, loss: next.loss, state: next.state, edge, before: label },
        next.minutes,
      );
    }
  }
  return { routes: routesOf(done), complete };
}

function routesOf<P, S>(done: readonly Node<P, S>[]): LabelRoute<P, S>[] {
  return unbeaten(done).map((last) => {
    const edges: Edge<P>[] = [];
    for (let node: Node<P, S> | null = last; node !== null && node.edge !== null; node = node.before) {
      edges.push(node.edge);
    }
    return { minutes: last.minutes, loss: last.loss, state: last.state, edges: edges.reverse() };
  });
}
