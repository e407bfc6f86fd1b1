import type { Point } from '../math/plane.ts';
import { type Arm, clusterArms, endOf } from './arms.ts';
import { type Chained, chainages } from './chainage.ts';
import { cornersOf, isCorner, turnBetween } from './corners.ts';
import type { Feature } from './feature.ts';
import { flowsAsDrawn, type HeightAt } from './line.ts';
import { type LineFamily, lineFamily } from './line-kinds.ts';
import { meetings } from './meetings.ts';
import { waterAt } from './standing-water.ts';

export type PlaceKind =
  | 'junction'
  | 'crossing'
  | 'confluence'
  | 'line-end'
  | 'stream-end'
  | 'corner'
  /** Two pieces of one line, end to end: a step in the data, nothing to see on the ground. */
  | 'join';

/** A place of the line network. `on` is in order of the features, then of the metres along each. */
export interface Place {
  readonly id: string;
  readonly kind: PlaceKind;
  readonly at: Point;
  readonly on: readonly { readonly feature: string; readonly along: number }[];
}

/** The part of one line between two neighbouring places, `fromAlong` < `toAlong`. */
export interface NetworkEdge {
  /** Positions in `places`. */
  readonly a: number;
  readonly b: number;
  readonly feature: string;
  readonly fromAlong: number;
  readonly toAlong: number;
  readonly metres: number;
}

export interface LineNetwork {
  readonly places: readonly Place[];
  readonly edges: readonly NetworkEdge[];
}

export interface NetworkOptions {
  /** Height in metres at a place; tells the source of a stream from its mouth. Without it a stream runs as it is drawn. */
  readonly heightAt?: HeightAt;
  /** Lines that miss each other by no more than this are meant to touch, metres. */
  readonly tolerance?: number;
}

/** Every line that can be followed, joined where they meet. Deterministic: order of places is order of features, then metres along. */
export function buildNetwork(features: readonly Feature[], options: NetworkOptions = {}): LineNetwork {
  const { heightAt, tolerance = 3 } = options;
  const lines: Chained[] = [];
  for (const feature of features) {
    const family = lineFamily(feature.kind);
    if (family === null || feature.geometry.type !== 'line') continue;
    const { points } = feature.geometry;
    lines.push({ feature, family, points, along: chainages(points) });
  }

  const arms: Arm[] = [];
  lines.forEach(({ points, along }, line) => {
    const last = points.length - 1;
    arms.push({ line, along: 0, at: points[0]!, corner: false });
    arms.push({ line, along: along[last]!, at: points[last]!, corner: false });
  });
  meetings(lines, tolerance, (line, along, at) => arms.push({ line, along, at, corner: false }));
  lines.forEach((chained, line) => {
    for (const { along, at } of cornersOf(chained)) arms.push({ line, along, at, corner: true });
  });

  const clusters = clusterArms(arms, lines, tolerance);
  const water = waterAt(features);
  const flow = lines.map((l) => (l.family === 'water' ? flowsAsDrawn(l.points, heightAt) : true));
  const used = new Map<string, number>();
  const places = clusters.map((cluster): Place => {
    const on = cluster.map(({ line, along }) => ({ feature: lines[line]!.feature.id, along }));
    const { kind, stem } = describe(cluster, lines, flow, water);
    const count = (used.get(stem) ?? 0) + 1;
    used.set(stem, count);
    return { id: count === 1 ? stem : `${stem}/${count}`, kind, at: cluster[0]!.at, on };
  });
  return { places, edges: edgesBetween(clusters, lines) };
}

/** What a cluster of arms is, and the stem of its id. */
function describe(
  cluster: readonly Arm[],
  lines: readonly Chained[],
  flow: readonly boolean[],
  water: (at: Point) => Feature | null,
): { kind: PlaceKind; stem: string } {
  const count: Record<LineFamily, number> = { way: 0, water: 0, barrier: 0, form: 0 };
  let through = 0;
  const ids = new Set<string>();
  for (const arm of cluster) {
    const { family, feature } = lines[arm.line]!;
    const ends = endOf(arm, lines) === null ? 2 : 1;
    count[family] += ends;
    if (ends === 2) through++;
    ids.add(feature.id);
  }
  const names = [...ids].sort().join('+');
  const first = cluster[0]!;
  if (count.water >= 3) {
    const into = inflows(cluster, lines, flow);
    return { kind: 'confluence', stem: `confluence:${into.length < 2 ? names : into.join('+')}` };
  }

  const spout = cluster.find((arm) => lines[arm.line]!.family === 'water' && endOf(arm, lines) !== null);
  if (count.water === 1 && spout) {
    const isSource = (endOf(spout, lines) === 'start') === flow[spout.line];
    const id = lines[spout.line]!.feature.id;
    const pond = water(spout.at);
    // where a stream leaves or enters standing water, that edge fixes its end
    if (pond) return { kind: 'line-end', stem: `${isSource ? 'outlet' : 'inlet'}:${pond.id}+${id}` };
    if (isSource) return { kind: 'stream-end', stem: `end:${id}/source` };
    if (cluster.length === 1) return { kind: 'line-end', stem: `end:${id}/mouth` };
  }
  const families = Object.values(count).filter((n) => n > 0).length;
  const most = Math.max(count.way, count.barrier, count.form);
  if (families === 1 && most >= 3) return { kind: 'junction', stem: `junction:${names}` };
  if (families > 1) {
    return through === cluster.length && most < 3
      ? { kind: 'crossing', stem: `crossing:${names}` }
      : { kind: 'junction', stem: `junction:${names}` };
  }
  const lone = cluster.length === 1 ? endOf(first, lines) : null;
  if (lone !== null) return { kind: 'line-end', stem: `end:${names}/${lone}` };
  if (cluster.some((arm) => arm.corner) || bends(cluster, lines))
    return { kind: 'corner', stem: `corner:${names}` };
  return { kind: 'join', stem: `join:${names}` };
}

/** Ids of the streams that bring water to a place, sorted; what leaves it does not name a confluence. */
function inflows(cluster: readonly Arm[], lines: readonly Chained[], flow: readonly boolean[]): string[] {
  const ids = new Set<string>();
  for (const arm of cluster) {
    if (lines[arm.line]!.family !== 'water') continue;
    const spring = flow[arm.line] ? 'start' : 'end';
    if (endOf(arm, lines) !== spring) ids.add(lines[arm.line]!.feature.id);
  }
  return [...ids].sort();
}

/** Two walls or fences that meet end to end at an angle. */
function bends(cluster: readonly Arm[], lines: readonly Chained[]): boolean {
  const [a, b] = cluster;
  if (a === undefined || b === undefined || cluster.length !== 2) return false;
  const aEnd = endOf(a, lines);
  const bEnd = endOf(b, lines);
  if (aEnd === null || bEnd === null || lines[a.line]!.family !== 'barrier') return false;
  return isCorner(turnBetween(lines[a.line]!, aEnd, lines[b.line]!, bEnd));
}

function edgesBetween(clusters: readonly (readonly Arm[])[], lines: readonly Chained[]): NetworkEdge[] {
  const stops: { place: number; along: number }[][] = lines.map(() => []);
  clusters.forEach((cluster, place) => {
    for (const { line, along } of cluster) stops[line]!.push({ place, along });
  });
  return stops.flatMap((onLine, line) => {
    onLine.sort((a, b) => a.along - b.along);
    return onLine.slice(1).map((to, i): NetworkEdge => {
      const from = onLine[i]!;
      return {
        a: from.place,
        b: to.place,
        feature: lines[line]!.feature.id,
        fromAlong: from.along,
        toAlong: to.along,
        metres: to.along - from.along,
      };
    });
  });
}
