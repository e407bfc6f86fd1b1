import type { MappedGround } from '../cost/mapped-ground.ts';
import { UserError } from '../door/user-error.ts';
import { distance, nearestOnLine } from '../math/plane.ts';
import { chosen, type Plan, worthWalking } from './choose.ts';
import type { Errand } from './drawn.ts';
import { estimateOf } from './estimate.ts';
import { endgamesAll } from './launches.ts';
import type { Leg, Route } from './leg.ts';
import { legNetwork } from './leg-network.ts';
import { lineOf } from './map-line.ts';
import { networkRoutes } from './network-routes.ts';
import { isPathBlocked, type Planning, planningOf } from './planning.ts';
import { rasterRoutes } from './raster-routes.ts';
import { routePhrase } from './says.ts';
import { stopsOf } from './stops.ts';
import { withTicks } from './tick-offs.ts';
import { searchGround } from './window.ts';

export interface FindOptions {
  readonly count: number;
}

/**
 * Routes that a good navigator would weigh against each other: macro routes over the leg network and the cost surface, joined to
 * endgames round the target. Near-duplicates are merged. Deterministic; at most `count` routes, the best guesses first.
 * Judge them by simulation: the estimates here only choose.
 */
export function findRoutes(errand: Errand, ground: MappedGround, options: FindOptions): Route[] {
  return findPlans(errand, ground, options).map((plan, i) =>
    routeOfPlan(plan, `found-${i + 1}`, ground, errand),
  );
}

export function routeOfPlan(plan: Plan, id: string, ground: MappedGround, errand: Errand): Route {
  return {
    id,
    name: plan.name,
    origin: 'found',
    strategy: routePhrase(plan.legs, ground, errand),
    legs: plan.legs,
  };
}

/** As `findRoutes`, with the estimates and what was merged. */
export function findPlans(errand: Errand, ground: MappedGround, options: FindOptions): Plan[] {
  const { planning, plans } = everyPlan(errand, ground);
  return chosen(planning, plans, options.count);
}

/** Plans to be walked, at most so many, the best guesses first, and what they were planned with. */
export function propose(
  errand: Errand,
  ground: MappedGround,
  most: number,
): { planning: Planning; plans: readonly Plan[] } {
  const { planning, plans } = everyPlan(errand, ground);
  return { planning, plans: worthWalking(plans, most) };
}

/** Every plan that can be made, estimated. */
function everyPlan(errand: Errand, whole: MappedGround): { planning: Planning; plans: readonly Plan[] } {
  const { start, target } = errand;
  if (distance(start.at, target.at) < 1) {
    throw new UserError({
      what: 'the start is the target: there is no route to find',
      got: `both at [${target.at[0]}, ${target.at[1]}]`,
      expected: 'two different places',
    });
  }
  const near = planningOf(searchGround(whole, errand), errand);
  const plans = plansOn(near);
  // A way round something large may lie outside the part of the map looked at first.
  const planning = plans.length > 0 || near.ground === whole ? near : planningOf(whole, errand);
  const all = planning === near ? plans : plansOn(planning);
  if (all.length > 0) return { planning, plans: all };
  throw new UserError({
    what: 'no way from the start to the target was found',
    got: 'barriers or the edge of the map all round one of them',
    expected:
      'a target that can be reached on foot; look at its barriers, the slope limit and streams in spate',
  });
}

function plansOn(planning: Planning): Plan[] {
  const stops = stopsOf(planning);
  const endgames = endgamesAll(planning, stops);
  const candidates: Leg[][] = [
    ...networkRoutes(planning, legNetwork(planning, stops, endgames), endgames),
    ...rasterRoutes(planning, endgames),
  ];
  const plans: Plan[] = [];
  for (const legs of candidates) {
    const tidy = tidied(planning, legs);
    if (tidy.length === 0 || isClosed(planning, tidy) || passesTarget(planning, tidy)) continue;
    plans.push({ legs: tidy, estimate: estimateOf(tidy, planning), name: '', alike: [] });
  }
  return plans;
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
    // who stands at the target does not go on to come back to it
    if (distance(at, target.at) < AT_TARGET) break;
  }
  const last = tidy.pop();
  if (!last) return [];
  return [...tidy, { ...last, toFeature: target.feature.id, fine: true }];
}

/** A leg but the last that comes so near the target is no way to it, metres. */
const AT_TARGET = 12;

function passesTarget({ errand }: Planning, legs: readonly Leg[]): boolean {
  const { at } = errand.target;
  // along a line to a sure place beyond it and back is a way: the target lies on the way twice
  return legs
    .slice(0, -1)
    .some((leg) => leg.technique !== 'handrail' && nearestOnLine(at, leg.path).away < AT_TARGET);
}

/** Closed ground on an open leg; a line is followed where the map has it, whatever the raster says. */
function isClosed(planning: Planning, legs: readonly Leg[]): boolean {
  return legs.some((leg) => {
    const way = leg.technique === 'handrail' && lineOf(planning.ground.byId.get(leg.line!)!) !== null;
    return !way && isPathBlocked(planning, leg.path);
  });
}
