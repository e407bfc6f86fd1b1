import { distance, lineLength, nearestOnLine, type Point, pointAlong } from '../math/plane.ts';
import { lineSteps } from './line-steps.ts';
import { type Handrail, linesNear, type Planning } from './planning.ts';

/**
 * Which mapped lines a drawn line follows: the most likely sequence of "on line x" and "in the open" by dynamic programming over
 * places along it, as in map matching by hidden Markov models (Newson & Krumm 2009), with costs that are common practice, no source.
 */
export interface MatchOptions {
  /** How far beside a mapped line a drawn one may lie and still mean it, metres. */
  readonly tolerance: number;
}

/** A part of the drawn line: along a mapped one, or in the open. */
export interface Stretch {
  readonly handrail: Handrail | null;
  readonly points: readonly Point[];
  /** Metres along the mapped line where it is joined and left. */
  readonly fromAlong: number;
  readonly toAlong: number;
}

/** Places looked at: every 10 m, at most so many. */
const EVERY = 10;
const MOST_PLACES = 4000;
/** Candidates per place. */
const MOST_LINES = 6;
/** Cost of a place in the open; of a place on a line: (away/tolerance)², and a turn against it. */
const OPEN = 0.5;
const TURNED = 2;
/** Least cosine between the drawn direction and the line's. */
const LEAST_COSINE = 0.6;
/** Cost of changing from one to the other; from line to line where they meet it is half. */
const CHANGE = 3;
/** A stretch shorter than this is no handrail, metres. */
const SHORTEST = 60;

interface Candidate {
  readonly handrail: Handrail | null;
  readonly along: number;
  readonly cost: number;
}

export function matchLines(planning: Planning, drawn: readonly Point[], options: MatchOptions): Stretch[] {
  const whole = lineLength(drawn);
  const n = Math.min(MOST_PLACES, Math.max(2, Math.ceil(whole / EVERY)));
  const places = lineSteps(drawn, n);
  const step = whole / n;
  const columns = places.map((_, i) => candidatesAt(planning, places, i, options.tolerance));
  const chosen = cheapest(columns, step, options.tolerance);
  return stretches(places, chosen, step);
}

function candidatesAt(
  planning: Planning,
  places: readonly Point[],
  i: number,
  tolerance: number,
): Candidate[] {
  const at = places[i]!;
  const a = places[Math.max(0, i - 3)]!;
  const b = places[Math.min(places.length - 1, i + 3)]!;
  const d = distance(a, b) || 1;
  const ux = (b[0] - a[0]) / d;
  const uy = (b[1] - a[1]) / d;
  const found: Candidate[] = [];
  for (const handrail of linesNear(planning, at, tolerance)) {
    const { points, metres } = handrail;
    const near = nearestOnLine(at, points);
    const p = pointAlong(points, Math.max(0, near.along - 15));
    const q = pointAlong(points, Math.min(metres, near.along + 15));
    const l = distance(p, q) || 1;
    const cosine = Math.abs((ux * (q[0] - p[0]) + uy * (q[1] - p[1])) / l);
    if (cosine < LEAST_COSINE) continue;
    const share = near.away / tolerance;
    found.push({ handrail, along: near.along, cost: share * share + TURNED * (1 - cosine) });
  }
  found.sort((x, y) => x.cost - y.cost);
  return [{ handrail: null, along: 0, cost: OPEN }, ...found.slice(0, MOST_LINES)];
}

/** The cheapest sequence of candidates, one per place. */
function cheapest(columns: readonly Candidate[][], step: number, tolerance: number): Candidate[] {
  let costs = columns[0]!.map((c) => c.cost);
  const back: Int32Array[] = [];
  for (let i = 1; i < columns.length; i++) {
    const before = columns[i - 1]!;
    const here = columns[i]!;
    const from = new Int32Array(here.length);
    const next: number[] = [];
    here.forEach((candidate, k) => {
      let least = Number.POSITIVE_INFINITY;
      before.forEach((previous, j) => {
        const cost = costs[j]! + changeCost(previous, candidate, step, tolerance);
        if (cost < least) {
          least = cost;
          from[k] = j;
        }
      });
      next.push(least + candidate.cost);
    });
    back.push(from);
    costs = next;
  }
  let k = costs.indexOf(Math.min(...costs));
  const chosen: Candidate[] = [];
  for (let i = columns.length - 1; i >= 0; i--) {
    chosen.push(columns[i]![k]!);
    if (i > 0) k = back[i - 1]![k]!;
  }
  return chosen.reverse();
}

function changeCost(a: Candidate, b: Candidate, step: number, tolerance: number): number {
  if (a.handrail === b.handrail) {
    // A line that winds back beside itself is another place of it.
    return a.handrail !== null && Math.abs(b.along - a.along) > 4 * step + tolerance ? CHANGE : 0;
  }
  return a.handrail === null || b.handrail === null ? CHANGE : CHANGE / 2;
}

/** Runs of the same choice; a run along a line that is too short, or gets nowhere along it, is open ground. */
function stretches(places: readonly Point[], chosen: readonly Candidate[], step: number): Stretch[] {
  const runs: { handrail: Handrail | null; first: number; last: number }[] = [];
  chosen.forEach((c, i) => {
    const run = runs[runs.length - 1];
    if (run && run.handrail === c.handrail) run.last = i;
    else runs.push({ handrail: c.handrail, first: i, last: i });
  });
  const kept: typeof runs = [];
  for (const run of runs) {
    const gained = Math.abs(chosen[run.last]!.along - chosen[run.first]!.along);
    const handrail = run.handrail !== null && gained < SHORTEST ? null : run.handrail;
    const before = kept[kept.length - 1];
    const earlier = kept[kept.length - 2];
    if (before && before.handrail === handrail) before.last = run.last;
    else if (
      earlier &&
      before &&
      handrail !== null &&
      earlier.handrail === handrail &&
      (before.last - before.first) * step < SHORTEST
    ) {
      // A short stray from a line and back to it is the hand that drew it.
      kept.pop();
      earlier.last = run.last;
    } else kept.push({ ...run, handrail });
  }
  return kept.map(({ handrail, first, last }, i) => {
    // Neighbouring stretches share a place, so that no metre is lost between them.
    const from = i === 0 ? first : first - 1;
    return {
      handrail,
      points: places.slice(from, last + 1),
      fromAlong: handrail === null ? 0 : chosen[first]!.along,
      toAlong: handrail === null ? 0 : chosen[last]!.along,
    };
  });
}
