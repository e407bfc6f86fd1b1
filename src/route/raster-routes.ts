import { prepareCost, weighted } from '../cost/build.ts';
import type { MappedGround } from '../cost/mapped-ground.ts';
import { cellAt } from '../grid/raster.ts';
import { leastCostPath } from '../search/a-star.ts';
import { alternatives, corridor } from '../search/corridor.ts';
import { costField, pathFrom } from '../search/field.ts';
import { knownTo } from './doubt-of-place.ts';
import type { Errand } from './drawn.ts';
import type { Endgame } from './endgames.ts';
import type { Leg } from './leg.ts';
import { START } from './leg-network.ts';
import { KNOWN, throughPiece } from './pieces.ts';
import type { Planning } from './planning.ts';
import { cellLine, legsOfRaster } from './raster-legs.ts';
import { placeOfSpot } from './stretch-legs.ts';

/** Launches to which the best line over the raster is drawn as well. */
const RASTER_LAUNCHES = 8;
/** Weights of markless ground whose best lines are candidates. */
const BETAS = [0, 0.5, 1, 2] as const;

/** The fastest line, others unlike it, lines that keep near marks, and lines to the best launches with their endgames. */
export function rasterRoutes(planning: Planning, endgames: readonly Endgame[]): Leg[][] {
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
