import { type Course, courseOf, differenceOf, isTwin } from './alike.ts';
import type { Estimate } from './estimate.ts';
import type { Leg } from './leg.ts';
import { lossOf } from './pieces.ts';
import { named } from './plan-names.ts';
import type { Planning } from './planning.ts';

/** A plan with a guess of its worth. */
export interface Plan {
  readonly legs: readonly Leg[];
  readonly estimate: Estimate;
  readonly name: string;
  /** How the plans that were merged into this one differ from it. */
  readonly alike: readonly string[];
}

/** Minutes given for a unit of loss: from a party in a hurry to one that has all day. */
const ATTITUDES = [10, 40, 3, 150, 20, 1, 80];
/** Times the share of another plan, at no more minutes, that makes a plan hopeless; the estimates are not better than that. */
const HOPELESS = 4;
/** Plans looked at for duplicates: the rest is far behind. */
const MOST_COMPARED = 160;
/** At most `count` plans, near-duplicates merged. */
export function chosen(planning: Planning, plans: readonly Plan[], count: number): Plan[] {
  const groups = grouped(plans);
  const told = inTurn(groups.map((g) => g.best)).slice(0, count);
  return named(
    planning,
    told.map((plan) => ({ ...plan, alike: differences(planning, groups.find((g) => g.best === plan)!) })),
  );
}

/** At most `count` plans to be walked: the best of every group of near-duplicates, then the next best of each. */
export function worthWalking(plans: readonly Plan[], count: number): Plan[] {
  const groups = grouped(plans);
  const order = inTurn(groups.map((g) => g.best)).map((plan) => groups.find((g) => g.best === plan)!);
  const picked = order.map((g) => g.best).slice(0, count);
  for (let nth = 0; picked.length < count && order.some((g) => nth < g.others.length); nth++) {
    for (const { others } of order) {
      const next = others[nth];
      if (next !== undefined && picked.length < count) picked.push(next);
    }
  }
  return picked;
}

/** By turns the best for one attitude after another, every family of techniques first once. */
function inTurn(plans: readonly Plan[]): Plan[] {
  const picked: Plan[] = [];
  const left = (among: readonly Plan[]) => among.filter((p) => !picked.includes(p));
  const take = (plan: Plan | undefined) => {
    if (plan && !picked.includes(plan)) picked.push(plan);
  };
  const worth = plans.filter((plan) => !isHopeless(plan, plans));
  take(bestFor(worth, ATTITUDES[0]!));
  for (const family of FAMILIES) {
    const ofFamily = worth.filter((p) => family(p.legs));
    take(bestFor(ofFamily, ATTITUDES[0]!));
  }
  for (const among of [worth, plans]) {
    for (let turn = 0; left(among).length > 0; turn++) {
      take(bestFor(left(among), ATTITUDES[turn % ATTITUDES.length]!));
    }
  }
  return picked;
}

/** A plan that another beats in minutes and by far in share comes last; straight ones do not, they are what others are compared with. */
function isHopeless({ legs, estimate }: Plan, plans: readonly Plan[]): boolean {
  if (legs.length === 1) return false;
  return plans.some(
    (p) => p.estimate.minutes <= estimate.minutes && p.estimate.share > HOPELESS * estimate.share,
  );
}

const hasTechnique =
  (...wanted: Leg['technique'][]) =>
  (legs: readonly Leg[]) =>
    legs.some((leg) => wanted.includes(leg.technique));

/** Kinds of plan of which the report shows one each where it exists. */
const FAMILIES: readonly ((legs: readonly Leg[]) => boolean)[] = [
  (legs) => legs.length === 1,
  (legs) => legs.some((l) => l.technique === 'aim-off' && (l.offsetMetres ?? 0) <= 150),
  (legs) =>
    legs.length > 1 && legs[legs.length - 1]!.technique !== 'handrail' && hasTechnique('handrail')(legs),
  hasTechnique('contour'),
];

function bestFor(plans: readonly Plan[], attitude: number): Plan | undefined {
  let best: Plan | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const plan of plans) {
    const cost = costFor(plan, attitude);
    if (cost < least) {
      least = cost;
      best = plan;
    }
  }
  return best;
}

function costFor({ estimate }: Plan, attitude: number): number {
  return estimate.minutes + attitude * lossOf(estimate.share);
}

/** Plans that walk the same line with the same endgame: the best by the estimates, and those that differ from it in some way. */
interface Group {
  readonly best: Plan;
  readonly others: readonly Plan[];
}

function grouped(plans: readonly Plan[]): Group[] {
  const ranked = plans
    .map((plan, i) => ({ plan, i, rank: Math.min(...ATTITUDES.map((a) => costFor(plan, a) / (a + 30))) }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i);
  const seen = new Set<string>();
  const groups: { best: Plan; others: Plan[]; course: Course }[] = [];
  for (const { plan } of ranked) {
    const key = keyOf(plan.legs);
    if (seen.has(key)) continue;
    if (seen.size === MOST_COMPARED) break;
    seen.add(key);
    const course = courseOf(plan.legs);
    const twin = groups.find((g) => isTwin(g.course, course));
    if (twin) twin.others.push(plan);
    else groups.push({ best: plan, others: [], course });
  }
  return groups;
}

/** Two plans with this key are one plan. */
function keyOf(legs: readonly Leg[]): string {
  return legs
    .map((l) => {
      const to = l.toFeature ?? l.to.map((v) => Math.round(v / 20)).join();
      return `${l.technique} ${l.line ?? ''} ${to} ${l.catching?.line ?? ''}`;
    })
    .join('|');
}

/** How the others of a group differ from its best, in a few words each. */
function differences(planning: Planning, group: Group): string[] {
  const said = new Set<string>();
  for (const other of group.others) {
    const differs = differenceOf(planning, group.best.legs, other.legs);
    if (differs !== '') said.add(differs);
  }
  return [...said].slice(0, 4);
}
