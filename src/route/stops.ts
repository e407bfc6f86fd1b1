import type { Feature } from '../features/feature.ts';
import { distance, nearestOnLine, type Point } from '../math/plane.ts';
import { type Handrail, type Planning, spotsNear } from './planning.ts';
import { placeOfSpot } from './stretch-legs.ts';

/** A place on a line where a party can stop, turn or leave it. */
export interface Stop {
  /** Id of the feature, or of the network's place where nothing is named. */
  readonly id: string;
  readonly at: Point;
  readonly along: number;
  /** What a party knows it by; null for the end of a line that nothing marks, and for a mere join of two pieces. */
  readonly feature: Feature | null;
  /** The line stops here: whoever follows it cannot miss that. */
  readonly end: boolean;
}

/** A feature this near a line is a place on it, metres. */
const BESIDE = 20;
/** A feature this near another stop of the line adds none, metres. */
const APART = 15;

/** Lines that a plan may follow, at most. */
const MOST_LINES = 1500;

/** The stops of every line that may be followed, in order along it. Of more than 1500 lines those least out of the way. */
export function stopsOf(planning: Planning): Map<string, Stop[]> {
  const stops = new Map<string, Stop[]>();
  for (const line of leastDetour(planning)) stops.set(line.feature.id, []);
  for (const place of planning.ground.network.places) {
    const feature = planning.ground.byId.get(place.id) ?? null;
    for (const { feature: line, along } of place.on) {
      stops.get(line)?.push({ id: place.id, at: place.at, along, feature, end: place.kind === 'line-end' });
    }
  }
  for (const [id, list] of stops) {
    addSpots(planning, planning.handrails.get(id)!, list);
    list.sort((a, b) => a.along - b.along || (a.id < b.id ? -1 : 1));
  }
  return stops;
}

function leastDetour(planning: Planning): Handrail[] {
  const all = [...planning.handrails.values()];
  if (all.length <= MOST_LINES) return all;
  const { start, target } = planning.errand;
  const middle: Point = [(start.at[0] + target.at[0]) / 2, (start.at[1] + target.at[1]) / 2];
  return all
    .map((line, i) => {
      const { at } = nearestOnLine(middle, line.points);
      return { line, i, detour: distance(start.at, at) + distance(at, target.at) };
    })
    .sort((a, b) => a.detour - b.detour || a.i - b.i)
    .slice(0, MOST_LINES)
    .sort((a, b) => a.i - b.i)
    .map(({ line }) => line);
}

function addSpots(planning: Planning, line: Handrail, list: Stop[]): void {
  const { points } = line;
  const known = new Set(list.map((s) => s.id));
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    const half = Math.max(Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])) / 2;
    for (const spot of spotsNear(planning, middle, 1.5 * half + BESIDE)) {
      if (known.has(spot.id) || spot.origin === 'derived') continue;
      const near = nearestOnLine(placeOfSpot(spot), points);
      if (near.away > BESIDE) continue;
      known.add(spot.id);
      if (list.some((s) => s.feature !== null && Math.abs(s.along - near.along) < APART)) continue;
      list.push({ id: spot.id, at: near.at, along: near.along, feature: spot, end: false });
    }
  }
}
