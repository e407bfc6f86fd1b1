import type { MappedGround } from '../cost/mapped-ground.ts';
import { hashText } from '../math/random.ts';
import { type Course, courseOf, differenceOf, isTwin } from '../route/alike.ts';
import type { Plan } from '../route/choose.ts';
import { propose, routeOfPlan } from '../route/find.ts';
import { changesOf } from '../route/improve.ts';
import type { Route } from '../route/leg.ts';
import { named } from '../route/plan-names.ts';
import type { Planning } from '../route/planning.ts';
import type { Walkers } from '../walk/jobs.ts';
import { beats, isQuickerTwin, leading, type Round, type Runner, race, runnerOf } from './racing.ts';
import type { Task } from './task.ts';

/** Plans that the estimates let through to be walked. */
const PROPOSED = 64;
/** Attempts in the race of the plans, then in that of the changes to those that lead, twice. Fixed, never by the clock. */
const PLAN_ROUNDS: readonly Round[] = [
  { attempts: 24, goOn: 24 },
  { attempts: 60, goOn: 12 },
  { attempts: 120, goOn: 8 },
];
const CHANGE_ROUNDS: readonly Round[] = [
  { attempts: 40, goOn: 14 },
  { attempts: 120, goOn: 8 },
  { attempts: 240, goOn: 8 },
];
/** Those that lead at the end, among whom near-duplicates differ by little. */
const LAST_ROUNDS: readonly Round[] = [{ attempts: 600, goOn: 5 }];
const FINALISTS = 5;
const GENERATIONS = 2;
/** Routes whose one-change neighbours are walked as well. */
const LEADERS = 3;
const CHANGES = { ofKind: 6, all: 18 };

/** The seed of screening: no attempt that decides what is shown is among those that are shown. */
export function screeningSeed(seed: number): number {
  return hashText(`screening ${seed}`);
}

export interface Screened {
  readonly found: readonly Route[];
  /** By id of a route, drawn or found: what else was found and walks nearly the same, in a few words each. */
  readonly alike: ReadonlyMap<string, readonly string[]>;
}

/**
 * The routes that the search proposes beside the drawn ones: plans ranked by closed forms, raced by simulation, the leading ones
 * bettered by one change, near-duplicates merged. What walks like a drawn route is proposed only when it clearly finds more.
 */
export async function screen(
  task: Task,
  ground: MappedGround,
  drawn: readonly Route[],
  count: number,
  walkers: Walkers,
): Promise<Screened> {
  const { planning, plans } = propose(task, ground, PROPOSED);
  const seed = screeningSeed(task.seed);
  const bounded = (rounds: readonly Round[]) =>
    rounds.map((r) => ({ ...r, attempts: Math.min(r.attempts, task.trials) }));
  const given = drawn.map((route) => runnerOf(route, true));
  // a plan may be what somebody drew, a change of a change lead back to what was walked already
  const walked = new Set(given.map(wordFor));
  const proposed = plans
    .map((plan, i) => runnerOf(routeOfPlan(plan, `plan-${i + 1}`, ground, task)))
    .filter((runner) => isNew(walked, wordFor(runner)));
  let order = await race(walkers, [...given, ...proposed], seed, bounded(PLAN_ROUNDS));
  const bettered = new Set<Runner>();
  for (let generation = 0; generation < GENERATIONS; generation++) {
    const leaders = leading(
      order.filter((r) => !bettered.has(r)),
      LEADERS,
    );
    for (const leader of leaders) bettered.add(leader);
    const changed = leaders
      .flatMap(({ route }) => changesOf(route, planning, CHANGES).map((c) => runnerOf(c.route)))
      .filter((runner) => isNew(walked, wordFor(runner)));
    const finalists = order.slice(0, given.length + CHANGE_ROUNDS.at(-1)!.goOn);
    const raced = await race(walkers, [...finalists, ...changed], seed, bounded(CHANGE_ROUNDS));
    order = [...raced, ...order.filter((r) => !raced.includes(r))];
  }
  const finalists = order.slice(0, given.length + FINALISTS);
  const last = await race(walkers, finalists, seed, bounded(LAST_ROUNDS));
  return pick(task, planning, ground, given, [...last, ...order.filter((r) => !last.includes(r))], count);
}

/** Two routes with this word walk alike, to the metre. */
function wordFor({ route }: Runner): string {
  return JSON.stringify(route.legs, (_, value) => (typeof value === 'number' ? Math.round(value) : value));
}

function isNew(known: Set<string>, word: string): boolean {
  const before = known.size;
  return known.add(word).size > before;
}

interface Kept {
  runner: Runner;
  course: Course;
  readonly alike: string[];
}

/** The best of the raced that are unlike each other; a twin of a drawn route only where it clearly finds more. */
function pick(
  task: Task,
  planning: Planning,
  ground: MappedGround,
  drawn: readonly Runner[],
  raced: readonly Runner[],
  count: number,
): Screened {
  const kept: Kept[] = drawn.map((runner) => ({ runner, course: courseOf(runner.route.legs), alike: [] }));
  const picked: Kept[] = [];
  for (const runner of raced) {
    if (drawn.includes(runner)) continue;
    const course = courseOf(runner.route.legs);
    const twin = kept.find((k) => isTwin(k.course, course));
    if (twin === undefined || (drawn.includes(twin.runner) && beats(runner, twin.runner, CLEAR_TWIN))) {
      if (picked.length === count) continue;
      const mine = { runner, course, alike: [] };
      kept.unshift(mine);
      picked.push(mine);
    } else {
      let other = runner;
      if (picked.includes(twin) && isQuickerTwin(runner, twin.runner, CLEAR_TWIN)) {
        other = twin.runner;
        twin.runner = runner;
        twin.course = course;
      }
      const differs = differenceOf(planning, twin.runner.route.legs, other.route.legs);
      if (differs !== '' && !twin.alike.includes(differs)) twin.alike.push(differs);
    }
  }
  const plans = named(
    planning,
    picked.map(({ runner }): Plan => ({ legs: runner.route.legs, name: '', alike: [], estimate: NONE })),
  );
  const found = plans.map((plan, i) => routeOfPlan(plan, `found-${i + 1}`, ground, task));
  const alike = new Map<string, readonly string[]>();
  for (const k of kept) {
    const i = picked.indexOf(k);
    const id = i < 0 ? k.runner.route.id : `found-${i + 1}`;
    if (k.alike.length > 0) alike.set(id, k.alike.slice(0, 4));
  }
  return { found, alike };
}

/** Sign test at which a near-duplicate of a drawn route is worth a place of its own. */
const CLEAR_TWIN = 2;
const NONE = { minutes: 0, share: 0 };
