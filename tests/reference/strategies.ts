import type { MappedGround } from '../../src/cost/mapped-ground.ts';
import { UserError } from '../../src/door/user-error.ts';
import type { Feature } from '../../src/features/feature.ts';
import { lineFamily } from '../../src/features/line-kinds.ts';
import { sample } from '../../src/grid/raster.ts';
import { distance, length, nearestOnLine, type Point } from '../../src/math/plane.ts';
import type { DrawnLeg } from '../../src/route/drawn.ts';
import type { Route } from '../../src/route/leg.ts';
import { isPathBlocked, planningOf } from '../../src/route/planning.ts';
import { resolveRoute } from '../../src/route/resolve.ts';
import type { Task } from '../../src/study/task.ts';

/*
 * What an expert with a map would try, written as people draw routes and made by nothing of the search: every attack point within 400 m of the target,
 * reached straight, along each line by it, or by the shortest way over the lines; and from it every technique to the target.
 */
const ATTACK_REACH = 400;
const BESIDE_LINE = 25;
const AT_HAND = 60;
const LINE_BY_TARGET = 120;
const BACKSTOP_REACH = 150;

interface Line {
  readonly id: string;
  readonly points: readonly Point[];
}

export function referenceRoutes(task: Task, ground: MappedGround): Route[] {
  const { target } = task;
  const lines = linesOf(ground);
  const drawn: DrawnLeg[][] = [];
  for (const macro of macrosTo(task, ground, lines, target.at, null)) {
    for (const last of endgames(lines, target.at)) drawn.push([...macro, ...last]);
  }
  for (const spot of attackPoints(task, ground)) {
    for (const macro of macrosTo(task, ground, lines, placeOf(spot)!, spot)) {
      for (const last of endgames(lines, target.at)) drawn.push([...macro, ...last]);
    }
  }
  return resolved(drawn, task, ground);
}

/** Height is held where the slope is 5° to 25° for half of the way at least, and the ends are level to 10 m or 2 %. */
function isContour(ground: MappedGround, a: Point, b: Point): boolean {
  const { eastward, northward } = ground.relief;
  let serves = 0;
  for (let i = 0; i <= 20; i++) {
    const [x, y] = [a[0] + ((b[0] - a[0]) * i) / 20, a[1] + ((b[1] - a[1]) * i) / 20];
    const slope = length(sample(eastward, x, y), sample(northward, x, y));
    if (slope >= Math.tan(Math.PI / 36) && slope <= Math.tan((5 * Math.PI) / 36)) serves++;
  }
  const { elevation } = ground.terrain;
  const rise = Math.abs(sample(elevation, b[0], b[1]) - sample(elevation, a[0], a[1]));
  return serves > 10 && rise <= Math.max(10, 0.02 * distance(a, b));
}

function resolved(drawn: readonly DrawnLeg[][], task: Task, ground: MappedGround): Route[] {
  // hazards are constraints: a route that crosses closed ground in the open is none, whatever it finds
  const planning = planningOf(ground, task);
  const routes = new Map<string, Route>();
  drawn.forEach((legs, i) => {
    const name = legs.map(wordsOf).join(', ');
    try {
      const route = resolveRoute({ name, legs }, task, ground, `reference-${i}`);
      if (route.legs.some((l) => l.technique === 'contour' && !isContour(ground, l.from, l.to))) return;
      if (route.legs.some((l) => l.technique !== 'handrail' && isPathBlocked(planning, l.path))) return;
      const key = route.legs
        .map((l) =>
          [l.technique, l.line ?? '', l.catching?.line ?? '', ...l.to.map((v) => Math.round(v / 5))].join(),
        )
        .join('|');
      if (!routes.has(key)) routes.set(key, route);
    } catch (error) {
      // a line that does not lead there, a leg of no length: no such route
      if (!(error instanceof UserError)) throw error;
    }
  });
  return [...routes.values()];
}

function wordsOf({ technique, along, line, to, towards, side, catching }: DrawnLeg): string {
  const at = typeof to === 'object' ? ('feature' in to ? to.feature : 'the line') : to;
  const words = [technique, along ?? line, side, towards ?? at, catching && `before ${catching}`];
  return words.filter((w) => w !== undefined).join(' ');
}

function attackPoints(task: Task, ground: MappedGround): Feature[] {
  const { target } = task;
  return ground.features.filter((f) => {
    const at = placeOf(f);
    if (at === null || f.id === target.feature.id || f.doubt.exists < 0.5) return false;
    const away = distance(at, target.at);
    return away > 15 && away <= ATTACK_REACH;
  });
}

function placeOf(f: Feature): Point | null {
  return f.geometry.type === 'point' ? f.geometry.at : null;
}

function linesOf(ground: MappedGround): Line[] {
  return ground.features.flatMap((f): Line[] =>
    f.geometry.type === 'line' && lineFamily(f.kind) !== null && f.doubt.exists >= 0.4
      ? [{ id: f.id, points: f.geometry.points }]
      : [],
  );
}

/** Straight to a place; along each line by it from where the start comes nearest to that line; over the net of lines. */
function macrosTo(
  task: Task,
  ground: MappedGround,
  lines: readonly Line[],
  at: Point,
  spot: Feature | null,
): DrawnLeg[][] {
  const start = task.start.at;
  if (spot === null) return [[]];
  const to = { feature: spot.id };
  const macros: DrawnLeg[][] = [];
  if (distance(start, at) > 15) macros.push([{ technique: 'bearing', to }]);
  for (const line of lines) {
    if (nearestOnLine(at, line.points).away > BESIDE_LINE) continue;
    const near = nearestOnLine(start, line.points);
    const follow: DrawnLeg = { technique: 'handrail', along: line.id, towards: spot.id };
    if (near.away <= AT_HAND) {
      macros.push([
        ...(near.away > 25 ? [{ technique: 'bearing' as const, to: { at: near.at } }] : []),
        follow,
      ]);
      continue;
    }
    macros.push([{ technique: 'bearing', to: { at: near.at } }, follow]);
    for (const side of ['left', 'right'] as const) {
      macros.push([{ technique: 'aim-off', line: line.id, side, to }, follow]);
    }
  }
  for (const dear of [1, 3]) {
    const legs = overLines(task, ground, at, dear);
    if (legs !== null) macros.push([...legs, { technique: 'bearing', to }], legs);
  }
  return macros;
}

/** The shortest way over the lines that meet, ways counted once and other lines `dear` times; null where there is none. */
function overLines(task: Task, ground: MappedGround, at: Point, dear: number): DrawnLeg[] | null {
  const { places, edges } = ground.network;
  const nearest = (p: Point) => {
    let best = -1;
    let least = 300;
    places.forEach((place, i) => {
      const away = distance(place.at, p);
      if (away < least) {
        least = away;
        best = i;
      }
    });
    return best;
  };
  const from = nearest(task.start.at);
  const to = nearest(at);
  if (from < 0 || to < 0 || from === to) return null;
  const cost = places.map(() => Number.POSITIVE_INFINITY);
  const came = places.map(() => ({ before: -1, line: '' }));
  const done = new Set<number>();
  cost[from] = 0;
  for (;;) {
    let here = -1;
    for (let i = 0; i < cost.length; i++) {
      if (!done.has(i) && cost[i]! < (here < 0 ? Number.POSITIVE_INFINITY : cost[here]!)) here = i;
    }
    if (here < 0) return null;
    if (here === to) break;
    done.add(here);
    for (const edge of edges) {
      if (edge.a !== here && edge.b !== here) continue;
      const next = edge.a === here ? edge.b : edge.a;
      const way = lineFamily(ground.byId.get(edge.feature)!.kind) === 'way';
      const sum = cost[here]! + edge.metres * (way ? 1 : dear);
      if (sum < cost[next]!) {
        cost[next] = sum;
        came[next] = { before: here, line: edge.feature };
      }
    }
  }
  const legs: DrawnLeg[] = [];
  for (let i = to; i !== from; i = came[i]!.before) {
    const { line } = came[i]!;
    // pieces of one line are one leg, to its last place
    if (legs[0]?.along !== line) legs.unshift({ technique: 'handrail', along: line, towards: places[i]!.id });
  }
  const first = places[from]!;
  return distance(first.at, task.start.at) > 25
    ? [{ technique: 'bearing', to: { at: first.at } }, ...legs]
    : legs;
}

/** From where the party stands to the target: each technique, each line behind it or beside it. */
function endgames(lines: readonly Line[], target: Point): DrawnLeg[][] {
  const found: DrawnLeg[][] = [
    [{ technique: 'bearing', to: 'target' }],
    [{ technique: 'timing', to: 'target' }],
    [{ technique: 'contour', to: 'target' }],
  ];
  for (const line of lines) {
    const { away } = nearestOnLine(target, line.points);
    if (away <= BACKSTOP_REACH) found.push([{ technique: 'bearing', to: 'target', catching: line.id }]);
    if (away > LINE_BY_TARGET) continue;
    const along: DrawnLeg = { technique: 'handrail', along: line.id, towards: 'target' };
    const across: DrawnLeg[] = away > 10 ? [{ technique: 'bearing', to: 'target' }] : [];
    found.push([along, ...across]);
    for (const side of ['left', 'right'] as const) {
      for (const metres of [40, 90]) {
        found.push([{ technique: 'aim-off', line: line.id, side, metres, to: 'target' }, along, ...across]);
      }
    }
  }
  return found;
}
