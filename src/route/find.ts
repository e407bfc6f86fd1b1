import { prepareCost, weighted } from '../cost/build.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { UserError } from '../door/user-error.ts';
import { cellAt } from '../grid/raster.ts';
import { distance } from '../math/plane.ts';
import { leastCostPath } from '../search/a-star.ts';
import { alternatives, corridor } from '../search/corridor.ts';
import { costField, pathFrom } from '../search/field.ts';
import { labelSearch } from '../search/label-search.ts';
import { type Edge, type Network, shortest } from '../search/network.ts';
import { chosen, type Plan } from './choose.ts';
import { knownTo, type PlaceDoubt, spreadOf } from './doubt-of-place.ts';
import type { Errand } from './drawn.ts';
import {
  attackPoints,
  type Endgame,
  endgamesAlong,
  endgamesFrom,
  type Launch,
  linesByTarget,
} from './endgames.ts';
import { estimateOf } from './estimate.ts';
import type { Leg, Route } from './leg.ts';
import { legNetwork, legsOf, START, TARGET } from './leg-network.ts';
import { lineOf } from './map-line.ts';
import { KNOWN, lossOf, type Piece, throughPiece } from './pieces.ts';
import { isPathBlocked, linesNear, type Planning, planningOf, seenWithin, spotsNear } from './planning.ts';
import { cellLine, legsOfRaster } from './raster-legs.ts';
import { routePhrase } from './says.ts';
import { type Stop, stopsOf } from './stops.ts';
import { placeOfSpot } from './stretch-legs.ts';
import { withTicks } from './tick-offs.ts';
import { searchGround } from './window.ts';

/** Attack points and far launches looked at, and launches for which a raster line is drawn as well. */
const MOST_ATTACK_POINTS = 40;
const MOST_FAR_LAUNCHES = 25;
const FAR_LAUNCH = 1200;
const RASTER_LAUNCHES = 8;
const NETWORK_LAUNCHES = 24;
/** Weights of markless ground whose best lines are candidates. */
const BETAS = [0, 0.5, 1, 2] as const;
/** Minutes that a party would give for a unit of loss when it heads for a launch. */
const TRADES = [2, 30];

export interface FindOptions {
  readonly count: number;
  /** Routes there are already, drawn by people: what only repeats one of them is left out. */
  readonly besides?: readonly Route[];
}

/**
 * Routes that a good navigator would weigh against each other: macro routes over the leg network and the cost surface, joined to
 * endgames round the target. Near-duplicates are merged. Deterministic; at most `count` routes, the best guesses first.
 * Judge them by simulation: the estimates here only choose.
 */
export function findRoutes(errand: Errand, ground: MappedGround, options: FindOptions): Route[] {
  return findPlans(errand, ground, options).map((plan, i) => ({
    id: `found-${i + 1}`,
    name: plan.name,
    origin: 'found',
    strategy: routePhrase(plan.legs, ground, errand),
    legs: plan.legs,
  }));
}

/** As `findRoutes`, with the estimates and what was merged. */
export function findPlans(errand: Errand, whole: MappedGround, options: FindOptions): Plan[] {
  const { start, target } = errand;
  if (distance(start.at, target.at) < 1) {
    throw new UserError({
      what: 'the start is the target: there is no route to find',
      got: `both at [${target.at[0]}, ${target.at[1]}]`,
      expected: 'two different places',
    });
  }
  const near = searchGround(whole, errand);
  const plans = plansOn(errand, near);
  // A way round something large may lie outside the part of the map looked at first.
  const all = plans.length === 0 && near !== whole ? plansOn(errand, whole) : plans;
  if (all.length === 0) {
    throw new UserError({
      what: 'no way from the start to the target was found',
      got: 'barriers or the edge of the map all round one of them',
      expected:
        'a target that can be reached on foot; look at its barriers, the slope limit and streams in spate',
    });
  }
  const planning = planningOf(near, errand);
  const drawn = (options.besides ?? []).map((route) => route.legs);
  return chosen(planning, all, options.count, drawn);
}

function plansOn(errand: Errand, ground: MappedGround): Plan[] {
  const planning = planningOf(ground, errand);
  const stops = stopsOf(planning);
  const endgames = endgamesAll(planning, stops);
  const candidates: Leg[][] = [
    ...networkRoutes(planning, legNetwork(planning, stops, endgames), endgames),
    ...rasterRoutes(planning, endgames),
  ];
  const plans: Plan[] = [];
  for (const legs of candidates) {
    const tidy = tidied(planning, legs);
    if (tidy.length === 0 || isClosed(planning, tidy)) continue;
    plans.push({ legs: tidy, estimate: estimateOf(tidy, planning), name: '', alike: [] });
  }
  return plans;
}

/** Every endgame: from the start itself, the attack points, the stops of lines by the target, and from farther off on to such a line. */
function endgamesAll(planning: Planning, stops: ReadonlyMap<string, readonly Stop[]>): Endgame[] {
  const { start, target } = planning.errand;
  const launches: Launch[] = [
    { id: START, at: start.at, feature: start.feature },
    ...attackPoints(planning, MOST_ATTACK_POINTS).map((f) => ({ id: f.id, at: placeOfSpot(f), feature: f })),
  ];
  const reach = seenWithin(planning, target.feature) + 10;
  const onLine = linesNear(planning, target.at, reach).length > 0;
  if (onLine) {
    const known = new Set(launches.map((l) => l.id));
    const far = spotsNear(planning, target.at, FAR_LAUNCH)
      .filter((f) => !known.has(f.id) && f.id !== target.feature.id && f.doubt.exists >= 0.7)
      .map((f) => ({ f, worth: f.doubt.exists * Math.sqrt(f.doubt.rangeMetres) }))
      .sort((a, b) => b.worth - a.worth || (a.f.id < b.f.id ? -1 : 1))
      .slice(0, MOST_FAR_LAUNCHES);
    for (const { f } of far) launches.push({ id: f.id, at: placeOfSpot(f), feature: f });
  }
  const endgames = launches.flatMap((launch) => endgamesFrom(planning, launch));
  for (const line of linesByTarget(planning)) {
    endgames.push(...endgamesAlong(planning, line, stops.get(line.feature.id) ?? []));
  }
  return endgames;
}

/** Unbeaten routes through the leg network, and the best way to every promising launch. */
function networkRoutes(planning: Planning, network: Network<Piece>, endgames: readonly Endgame[]): Leg[][] {
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
  const ends: Edge<Piece>[] = [];
  for (const link of network.graph.getLinks(launch) ?? []) {
    if (link.fromId === launch && link.data.payload.last) ends.push(link.data);
  }
  return ends.sort((a, b) => a.id - b.id);
}

/** Of the endgames from a launch, the surest and the quickest. */
function bestEndgames(network: Network<Piece>, launch: string): Edge<Piece>[] {
  const last = endsFrom(network, launch);
  if (last.length < 2) return last;
  const surest = last.reduce((a, b) => (b.loss < a.loss ? b : a));
  const quickest = last.reduce((a, b) => (b.minutes < a.minutes ? b : a));
  return surest === quickest ? [surest] : [surest, quickest];
}

/** The fastest line, others unlike it, lines that keep near marks, and lines to the best launches with their endgames. */
function rasterRoutes(planning: Planning, endgames: readonly Endgame[]): Leg[][] {
  const { errand, ground } = planning;
  const { start, target } = errand;
  const prepared = prepareCost(ground, errand.conditions, errand.party, errand.limits);
  const from = openCell(prepared.slowness, ground, start.at);
  const to = openCell(prepared.slowness, ground, target.at);
  if (from < 0 || to < 0) return [];
  const found: Leg[][] = [];
  for (const beta of BETAS) {
    const surface = weighted(prepared, beta);
    const take = (cells: Int32Array | null, end = target, tail: readonly Leg[] = []) => {
      if (!cells || cells.length < 2) return;
      const macro = legsOfRaster(planning, cellLine(surface, cells, start.at, end.at), end);
      found.push(tail.length === 0 ? macro : [...macro.map((leg) => ({ ...leg, fine: false })), ...tail]);
    };
    if (beta === 0) {
      const paths = corridor(surface, from, to);
      const options = { count: 5, slack: 0.35, shared: 0.6, apartMetres: 150 };
      for (const line of alternatives(surface, paths, options)) take(line.cells);
      toLaunches(planning, endgames, (launch, cell, tail) => {
        take(pathFrom(surface, paths.fromStart, cell, 'from'), launch, tail);
      });
      continue;
    }
    if (beta !== 1) {
      take(leastCostPath(surface, from, to)?.cells ?? null);
      continue;
    }
    const field = costField(surface, [from], 'from');
    take(pathFrom(surface, field, to, 'from'));
    toLaunches(planning, endgames, (launch, cell, tail) => {
      take(pathFrom(surface, field, cell, 'from'), launch, tail);
    });
  }
  return found;
}

/** The best launches with each one's surest endgame. */
function toLaunches(
  planning: Planning,
  endgames: readonly Endgame[],
  visit: (launch: Errand['target'], cell: number, tail: readonly Leg[]) => void,
): void {
  const { ground } = planning;
  const best = new Map<string, { share: number; legs: readonly Leg[] }>();
  for (const { launch, legs } of endgames) {
    if (launch === START || !ground.byId.has(launch)) continue;
    const { share } = throughPiece(planning, legs, true, knownTo(KNOWN));
    if (share > (best.get(launch)?.share ?? 0)) best.set(launch, { share, legs });
  }
  const ranked = [...best].sort((a, b) => b[1].share - a[1].share || (a[0] < b[0] ? -1 : 1));
  for (const [id, { legs }] of ranked.slice(0, RASTER_LAUNCHES)) {
    const feature = ground.byId.get(id)!;
    const at = placeOfSpot(feature);
    const cell = cellAt(ground.terrain.elevation, at[0], at[1]);
    if (cell >= 0) visit({ at, feature }, cell, legs);
  }
}

/** The cell of a place, or an open one beside it: a target may stand at the foot of a crag. */
function openCell(slowness: Float32Array, ground: MappedGround, at: readonly [number, number]): number {
  const { elevation } = ground.terrain;
  const cell = cellAt(elevation, at[0], at[1]);
  if (cell < 0 || slowness[cell]! < Number.POSITIVE_INFINITY) return cell;
  const reach = Math.max(1, Math.ceil(40 / elevation.cell));
  const column = cell % elevation.columns;
  const row = (cell - column) / elevation.columns;
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let r = Math.max(0, row - reach); r <= Math.min(elevation.rows - 1, row + reach); r++) {
    for (let c = Math.max(0, column - reach); c <= Math.min(elevation.columns - 1, column + reach); c++) {
      const i = r * elevation.columns + c;
      const away = (r - row) * (r - row) + (c - column) * (c - column);
      if (slowness[i]! < Number.POSITIVE_INFINITY && away < least) {
        least = away;
        best = i;
      }
    }
  }
  return best;
}

/** Chained, without legs of no length, each with its tick-offs, the last one fine. */
function tidied(planning: Planning, legs: readonly Leg[]): Leg[] {
  const { start, target } = planning.errand;
  const tidy: Leg[] = [];
  let at = start.at;
  for (const leg of legs) {
    if (distance(at, leg.to) < 1 && leg.technique !== 'box') continue;
    const chained = distance(at, leg.from) > 0 ? { ...leg, from: at, path: [at, ...leg.path.slice(1)] } : leg;
    tidy.push(withTicks(planning, { ...chained, fine: false }));
    at = leg.to;
  }
  const last = tidy.pop();
  if (!last) return [];
  return [...tidy, { ...last, toFeature: target.feature.id, fine: true }];
}

/** Closed ground on an open leg; a line is followed where the map has it, whatever the raster says. */
function isClosed(planning: Planning, legs: readonly Leg[]): boolean {
  return legs.some((leg) => {
    const way = leg.technique === 'handrail' && lineOf(planning.ground.byId.get(leg.line!)!) !== null;
    return !way && isPathBlocked(planning, leg.path);
  });
}
