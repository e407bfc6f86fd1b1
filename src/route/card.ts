import type { MappedGround } from '../cost/mapped-ground.ts';
import { lineFamily } from '../features/line-kinds.ts';
import { bearingTo, degreesOf } from '../math/bearing.ts';
import { distance, lineLength, nearestOnLine, type Point } from '../math/plane.ts';
import type { Errand } from './drawn.ts';
import { compassWord } from './english.ts';
import { figuresOf, walkingOf } from './figures.ts';
import type { Leg, Route } from './leg.ts';
import { lineOf } from './map-line.ts';
import { eighthOf, endText, nameOf, saysOf, startText } from './says.ts';

/** One line of a route card. */
export interface CardRow {
  readonly leg: number;
  readonly from: string;
  readonly to: string;
  readonly says: string;
  readonly gridDegrees: number;
  /** Null without a date. */
  readonly magneticDegrees: number | null;
  readonly metres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  /** Null where the count is not what ends the leg (along a line, by sight). */
  readonly doublePaces: number | null;
  readonly minutes: number;
  /** Minutes since the start at the end of the leg, without rests. */
  readonly runningMinutes: number;
  readonly ticks: readonly { readonly name: string; readonly atMetres: number }[];
  /** "Kettle Fence, 120 m behind": meeting it says that one is past. */
  readonly pastIf: string | null;
  /** The nearest sure line from the middle of the leg: where to go when lost. */
  readonly ifLost: string | null;
}

export interface RouteCard {
  readonly name: string;
  readonly strategy: string;
  readonly rows: readonly CardRow[];
  readonly metres: number;
  readonly climbMetres: number;
  readonly descentMetres: number;
  readonly minutes: number;
}

/** Least chance to be there of a line that a lost party is sent to, and how far that may be, metres. */
const SURE = 0.9;
const FURTHEST = 3000;

/**
 * What is written down before setting off. `magnetic` turns degrees from grid north into magnetic ones; null without a date.
 */
export function cardOf(
  route: Route,
  ground: MappedGround,
  errand: Errand,
  magnetic: ((gridDegrees: number) => number) | null,
): RouteCard {
  const walking = walkingOf(ground, errand);
  let running = 0;
  const rows = route.legs.map((leg, i): CardRow => {
    const figures = figuresOf(leg, walking);
    running += figures.minutes;
    const grid = degreesOf(figures.gridBearing);
    const counted = leg.technique === 'bearing' || leg.technique === 'contour' || leg.technique === 'box';
    return {
      leg: i + 1,
      from: startText(route.legs[i - 1], ground, errand),
      to: endText(leg, ground, errand),
      says: saysOf(leg, figures, ground, errand),
      gridDegrees: Math.round(grid) % 360,
      magneticDegrees: magnetic === null ? null : Math.round(magnetic(grid)) % 360,
      metres: Math.round(figures.distanceMetres),
      climbMetres: Math.round(figures.climbMetres),
      descentMetres: Math.round(figures.descentMetres),
      doublePaces: counted ? figures.doublePaces : null,
      minutes: Math.round(figures.minutes),
      runningMinutes: Math.round(running),
      ticks: leg.ticks.map((t) => {
        const feature = ground.byId.get(t.feature);
        return { name: feature ? nameOf(feature) : t.feature, atMetres: Math.round(t.atMetres) };
      }),
      pastIf: pastText(leg, ground),
      ifLost: lostText(leg, ground),
    };
  });
  const sum = (of: (row: CardRow) => number) => rows.reduce((total, row) => total + of(row), 0);
  return {
    name: route.name,
    strategy: route.strategy,
    rows,
    metres: sum((r) => r.metres),
    climbMetres: sum((r) => r.climbMetres),
    descentMetres: sum((r) => r.descentMetres),
    minutes: Math.round(running),
  };
}

function pastText(leg: Leg, ground: MappedGround): string | null {
  if (!leg.catching) return null;
  const line = ground.byId.get(leg.catching.line);
  return `${line ? nameOf(line) : leg.catching.line}, ${Math.round(leg.catching.beyondMetres)} m behind`;
}

function lostText(leg: Leg, ground: MappedGround): string | null {
  const middle = leg.path[Math.floor(leg.path.length / 2)]!;
  const at: Point =
    leg.path.length === 2 ? [(leg.from[0] + leg.to[0]) / 2, (leg.from[1] + leg.to[1]) / 2] : middle;
  let best: { name: string; at: Point; away: number } | null = null;
  for (const feature of ground.features) {
    const family = lineFamily(feature.kind);
    if (family === null || family === 'form' || feature.doubt.exists < SURE) continue;
    const line = lineOf(feature);
    if (!line || lineLength(line) < 200) continue;
    const near = nearestOnLine(at, line);
    if (near.away < (best?.away ?? FURTHEST)) best = { name: nameOf(feature), at: near.at, away: near.away };
  }
  if (best === null) return null;
  if (distance(best.at, at) < 20) return `keep to ${best.name}`;
  return `${best.name}, ${Math.round(best.away / 10) * 10} m ${compassWord(eighthOf(bearingTo(at, best.at)))}`;
}
