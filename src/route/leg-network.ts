import type { Feature } from '../features/feature.ts';
import { type FeatureIndex, indexFeatures, nearFeatures } from '../features/index-near.ts';
import { distance, nearestOnLine, type Point } from '../math/plane.ts';
import { addEdge, createNetwork, type Edge, type Network } from '../search/network.ts';
import { crossingSine, defaultOffset, joinLeg } from './aim-off-leg.ts';
import type { Endgame } from './endgames.ts';
import { handrailLeg } from './handrail-leg.ts';
import { scatterOf } from './lateral.ts';
import type { Leg } from './leg.ts';
import { type Piece, pieceOf } from './pieces.ts';
import { type Handrail, isBlocked, isPathBlocked, linesNear, type Planning } from './planning.ts';
import { roundObstacle } from './round-obstacle.ts';
import type { Stop } from './stops.ts';
import { openLeg } from './straight-leg.ts';
import { placeOfSpot } from './stretch-legs.ts';

export const START = 'start';
export const TARGET = 'target';

/** Places that a plan may go by, at most: what the search costs grows with them. */
const MOST_SPOTS = 260;
/** Open legs between features: how long, and to how many. */
const OPEN_REACH = 1200;
const OPEN_COUNT = 6;
/** Lines that may be walked on to from a place. */
const JOIN_REACH = 900;
const JOIN_COUNT = 4;
const LEAST_SINE = 0.35;
/** Stops of one line that the start aims at. */
const MOST_JOINED = 8;
/** Stops of a line that one edge may pass by. */
const PASSED_BY = 5;
/** A line this near needs no walk on to it, metres. */
const AT_HAND = 40;
/** A place may lie on no more than this much of a detour: (to it + from it) / straight, and metres on top. */
const DETOUR = 1.7;
const DETOUR_METRES = 1200;

/**
 * The network of legs between places that a party can be sure of: along lines from stop to stop, over open ground from
 * feature to feature, on to a line and along it; and the endgames, whose edges end at the target.
 */
export function legNetwork(
  planning: Planning,
  stops: ReadonlyMap<string, readonly Stop[]>,
  endgames: readonly Endgame[],
): Network<Piece> {
  const network = createNetwork<Piece>();
  const launches = new Set(endgames.map((e) => e.launch));
  const places = macroPlaces(planning, launches);
  for (const endgame of endgames) connect(network, planning, endgame.launch, TARGET, endgame.legs);
  for (const [id, list] of stops) followLine(network, planning, planning.handrails.get(id)!, list);
  const { start } = planning.errand;
  const nodes: { id: string; at: Point }[] = [
    { id: START, at: start.at },
    ...places.map((f) => ({ id: f.id, at: placeOfSpot(f) })),
  ];
  const index = indexFeatures(places);
  for (const node of nodes) {
    overOpenGround(network, planning, node, index, launches);
    ontoLines(network, planning, node, stops);
    alongAtHand(network, planning, node, stops);
  }
  return network;
}

function connect(
  network: Network<Piece>,
  planning: Planning,
  from: string,
  to: string,
  legs: readonly Leg[],
): void {
  if (from === to || legs.length === 0) return;
  const piece = pieceOf(planning, legs, to === TARGET);
  if (!Number.isFinite(piece.minutes)) return;
  addEdge(network, from, to, { minutes: Math.max(0, piece.minutes), loss: piece.loss, payload: piece });
}

/** Features that are no detour and that a party would know, the best ones; launches and the start's own always. */
function macroPlaces(planning: Planning, launches: ReadonlySet<string>): Feature[] {
  const { start, target } = planning.errand;
  const d = distance(start.at, target.at);
  const most = DETOUR * d + DETOUR_METRES;
  const ranked: { feature: Feature; worth: number }[] = [];
  for (const feature of planning.spots.features) {
    if (feature.id === target.feature.id) continue;
    const at = placeOfSpot(feature);
    const detour = distance(start.at, at) + distance(at, target.at);
    const launch = launches.has(feature.id);
    if (!launch && (detour > most || feature.doubt.exists < 0.7)) continue;
    const worth = launch
      ? Number.POSITIVE_INFINITY
      : (feature.doubt.exists * Math.sqrt(feature.doubt.rangeMetres)) / (detour + 500);
    ranked.push({ feature, worth });
  }
  ranked.sort((a, b) => b.worth - a.worth || (a.feature.id < b.feature.id ? -1 : 1));
  return ranked.slice(0, MOST_SPOTS).map((r) => r.feature);
}

/** Both ways between the stops of a line; a stop that is passed by need not be found, so not only between neighbours. */
function followLine(
  network: Network<Piece>,
  planning: Planning,
  line: Handrail,
  stops: readonly Stop[],
): void {
  for (let i = 0; i < stops.length; i++) {
    const a = stops[i]!;
    for (let j = i + 1; j < stops.length && j <= i + PASSED_BY; j++) {
      const b = stops[j]!;
      if (a.id === b.id || b.along - a.along < 1) continue;
      if (outOfReach(planning, a.at) || outOfReach(planning, b.at)) continue;
      const on = { ...handrailLeg(a.at, line.feature, b.along), from: a.at };
      if (isPathBlocked(planning, on.path)) break;
      connect(network, planning, a.id, b.id, [confirmedAt(on, b)]);
      connect(network, planning, b.id, a.id, [confirmedAt(handrailLeg(b.at, line.feature, a.along), a)]);
    }
  }
}

function confirmedAt(leg: Leg, stop: Stop): Leg {
  return stop.feature ? { ...leg, toFeature: stop.feature.id } : leg;
}

function outOfReach(planning: Planning, at: Point): boolean {
  const { start, target } = planning.errand;
  const d = distance(start.at, target.at);
  return distance(start.at, at) + distance(at, target.at) > DETOUR * d + 2 * DETOUR_METRES;
}

/** To the nearest features, and to the launches within reach; round what is in the way where a box does it. */
function overOpenGround(
  network: Network<Piece>,
  planning: Planning,
  node: { id: string; at: Point },
  places: FeatureIndex,
  launches: ReadonlySet<string>,
): void {
  const start = node.id === START;
  const reach = start ? Math.max(OPEN_REACH, 2 * distance(node.at, planning.errand.target.at)) : OPEN_REACH;
  const near = nearFeatures(places, node.at[0], node.at[1], reach)
    .map((i) => places.features[i]!)
    .filter((f) => f.id !== node.id)
    .map((feature) => ({ feature, away: distance(node.at, placeOfSpot(feature)) }))
    .filter(({ away }) => away >= 25)
    .sort((a, b) => a.away - b.away || (a.feature.id < b.feature.id ? -1 : 1));
  let plain = 0;
  let direct = 0;
  for (const { feature, away } of near) {
    const launch = launches.has(feature.id);
    if (launch ? direct >= (start ? 40 : OPEN_COUNT) : plain >= OPEN_COUNT || away > OPEN_REACH) continue;
    if (launch) direct++;
    else plain++;
    const to = placeOfSpot(feature);
    if (!isBlocked(planning, node.at, to)) {
      connect(network, planning, node.id, feature.id, [openLeg(planning, node.at, to, feature)]);
      continue;
    }
    if (away > 800) continue;
    for (const legs of roundObstacle(planning, node.at, to, feature)) {
      connect(network, planning, node.id, feature.id, legs);
    }
  }
}

/** On to a line well to one side of a stop, and along it to the stop: at the nearest place, or as near the stop as is sure. */
function ontoLines(
  network: Network<Piece>,
  planning: Planning,
  node: { id: string; at: Point },
  stops: ReadonlyMap<string, readonly Stop[]>,
): void {
  const start = node.id === START;
  const lines = start ? linesFromStart(planning, stops) : linesToJoin(planning, node.at, stops);
  for (const { line, near } of lines) {
    const list = stops.get(line.feature.id)!;
    const { lateral } = scatterOf(planning.ground, planning.errand, node.at, near.at);
    const offset = defaultOffset(lateral);
    for (const stop of start ? stopsAhead(planning, list) : stopsBeside(list, near.along)) {
      const gap = Math.abs(stop.along - near.along);
      const sense = stop.along >= near.along ? -1 : 1;
      // The nearest place gets the party on to the line soonest; the place as near the stop as is sure walks less of it.
      const sure = stop.along + sense * offset;
      const joins = new Set(
        gap < offset ? [sure] : start || gap > 3 * offset ? [near.along, sure] : [near.along],
      );
      // From the start, where everybody is sure, either side of a stop will do.
      if (start) joins.add(stop.along - sense * offset);
      for (const along of joins) {
        if (along < 0 || along > line.metres) continue;
        const square = crossingSine(node.at, line.points, along) >= LEAST_SINE;
        // a line that is met at its end, or nearly lengthwise, is walked up to; few could do that from a place in doubt
        if (!square && (!start || along !== near.along)) continue;
        const join = square
          ? joinLeg(node.at, line.feature, along, stop.along)
          : openLeg(planning, node.at, near.at);
        if (isBlocked(planning, join.from, join.to)) continue;
        const follow = confirmedAt(handrailLeg(join.to, line.feature, stop.along), stop);
        if (isPathBlocked(planning, follow.path)) continue;
        connect(network, planning, node.id, stop.id, [join, follow]);
      }
    }
  }
}

interface Joinable {
  readonly line: Handrail;
  readonly near: ReturnType<typeof nearestOnLine>;
}

/** The nearest lines; where lines are many the near ones do, where they are few one looks farther. */
function linesToJoin(
  planning: Planning,
  at: Point,
  stops: ReadonlyMap<string, readonly Stop[]>,
  reach = JOIN_REACH,
  count = JOIN_COUNT,
): Joinable[] {
  const close = linesNear(planning, at, reach / 4);
  return (close.length > 2 * count ? close : linesNear(planning, at, reach))
    .map((line) => ({ line, near: nearestOnLine(at, line.points) }))
    .filter(({ line, near }) => near.away >= AT_HAND && stops.has(line.feature.id))
    .sort((a, b) => a.near.away - b.near.away || (a.line.feature.id < b.line.feature.id ? -1 : 1))
    .slice(0, count);
}

/** From the start the nearest lines, and those farther off that have a stop on the way to the target. */
function linesFromStart(planning: Planning, stops: ReadonlyMap<string, readonly Stop[]>): Joinable[] {
  const { start, target } = planning.errand;
  const near = linesToJoin(planning, start.at, stops, 2 * JOIN_REACH, 3 * JOIN_COUNT);
  const known = new Set(near.map(({ line }) => line.feature.id));
  const detour = (s: Stop) => distance(start.at, s.at) + distance(s.at, target.at);
  const farther = linesNear(planning, target.at, JOIN_REACH)
    .filter(({ feature }) => !known.has(feature.id) && stops.has(feature.id))
    .map((line) => ({ line, least: Math.min(...stops.get(line.feature.id)!.map(detour)) }))
    .sort((a, b) => a.least - b.least || (a.line.feature.id < b.line.feature.id ? -1 : 1))
    .slice(0, 3 * JOIN_COUNT)
    .map(({ line }) => ({ line, near: nearestOnLine(start.at, line.points) }))
    .filter((joinable) => joinable.near.away >= AT_HAND);
  return [...near, ...farther];
}

/** The stops next to a place on a line, one either way. */
function stopsBeside(stops: readonly Stop[], along: number): Stop[] {
  const after = stops.findIndex((s) => s.along > along);
  return [stops[after < 0 ? stops.length - 1 : after - 1], stops[after < 0 ? -1 : after]].flatMap(
    (s) => s ?? [],
  );
}

/** Stops of a line that lie on no long detour, the ones least out of the way. */
function stopsAhead(planning: Planning, stops: readonly Stop[]): Stop[] {
  const { start, target } = planning.errand;
  const detour = (s: Stop) => distance(start.at, s.at) + distance(s.at, target.at);
  return [...stops].sort((a, b) => detour(a) - detour(b) || a.along - b.along).slice(0, MOST_JOINED);
}

/** A place beside a line is on it: along it to the next stop either way. */
function alongAtHand(
  network: Network<Piece>,
  planning: Planning,
  node: { id: string; at: Point },
  stops: ReadonlyMap<string, readonly Stop[]>,
): void {
  for (const line of linesNear(planning, node.at, AT_HAND)) {
    const list = stops.get(line.feature.id);
    if (!list || list.some((s) => s.id === node.id)) continue;
    const near = nearestOnLine(node.at, line.points);
    const reach = node.id === START ? 2 * PASSED_BY : 1;
    const on = list.filter((s) => s.along > near.along + 1).slice(0, reach);
    const back = list.filter((s) => s.along < near.along - 1).slice(-reach);
    for (const stop of [...back.reverse(), ...on]) {
      if (outOfReach(planning, stop.at)) continue;
      const leg = confirmedAt(handrailLeg(node.at, line.feature, stop.along), stop);
      if (!isPathBlocked(planning, leg.path)) connect(network, planning, node.id, stop.id, [leg]);
    }
  }
}

/** The legs of a route through the network, one after the other; stretches along one line are one leg. */
export function legsOf(edges: readonly Edge<Piece>[]): Leg[] {
  const legs: Leg[] = [];
  for (const edge of edges) {
    for (const leg of edge.payload.legs) {
      const before = legs[legs.length - 1];
      if (before && goesOn(before, leg)) legs[legs.length - 1] = joined(before, leg);
      else legs.push(before ? { ...leg, from: before.to, path: [before.to, ...leg.path.slice(1)] } : leg);
    }
  }
  return legs;
}

/** Two stretches along one line the same way round. */
function goesOn(a: Leg, b: Leg): boolean {
  if (a.technique !== 'handrail' || b.technique !== 'handrail' || a.line !== b.line) return false;
  const on = (leg: Leg) => Math.sign(leg.toAlong! - leg.fromAlong!);
  return on(a) === on(b) && Math.abs(a.toAlong! - b.fromAlong!) < 5;
}

function joined(a: Leg, b: Leg): Leg {
  const { toFeature: _passed, ...rest } = a;
  return {
    ...rest,
    to: b.to,
    ...(b.toFeature === undefined ? {} : { toFeature: b.toFeature }),
    path: [...a.path, ...b.path.slice(1)],
    toAlong: b.toAlong!,
    ticks: [],
    fine: b.fine,
  };
}
