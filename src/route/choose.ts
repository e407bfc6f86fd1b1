import { distance, lineLength, type Point } from '../math/plane.ts';
import type { Estimate } from './estimate.ts';
import type { Leg } from './leg.ts';
import { lineSteps } from './line-steps.ts';
import { lossOf } from './pieces.ts';
import { featureById, type Planning } from './planning.ts';
import { listed, nameOf, routeLine } from './says.ts';

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
/** Two lines this near each other are one, metres; and they are one plan when so much of both is. */
const BESIDE = 60;
const SAME_SHARE = 0.85;

/** At most `count` plans: by turns the best for one attitude after another, near-duplicates merged, every family of techniques first once. */
export function chosen(
  planning: Planning,
  plans: readonly Plan[],
  count: number,
  besides: readonly (readonly Leg[])[] = [],
): Plan[] {
  const known = besides.map((legs) => ({ legs, line: sampled(legs) }));
  const distinct = merged(planning, plans).filter((plan) => {
    const line = sampled(plan.legs);
    return !known.some((k) => sameTechniques(k.legs, plan.legs) && sameLine(k.line, line));
  });
  const picked: Plan[] = [];
  const left = (among: readonly Plan[]) => among.filter((p) => !picked.includes(p));
  const take = (plan: Plan | undefined) => {
    if (plan && !picked.includes(plan) && picked.length < count) picked.push(plan);
  };
  const worth = distinct.filter((plan) => !isHopeless(plan, plans));
  take(bestFor(worth, ATTITUDES[0]!));
  for (const family of FAMILIES)
    take(
      bestFor(
        worth.filter((p) => family(p.legs)),
        ATTITUDES[0]!,
      ),
    );
  for (const among of [worth, distinct]) {
    for (let turn = 0; left(among).length > 0 && picked.length < count; turn++) {
      take(bestFor(left(among), ATTITUDES[turn % ATTITUDES.length]!));
    }
  }
  return named(planning, picked);
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

/** Of plans that walk the same line with the same techniques the better one, with what the others do otherwise. */
function merged(planning: Planning, plans: readonly Plan[]): Plan[] {
  const ranked = plans
    .map((plan, i) => ({ plan, i, rank: Math.min(...ATTITUDES.map((a) => costFor(plan, a) / (a + 30))) }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .slice(0, MOST_COMPARED);
  const kept: { plan: Plan; line: Point[]; alike: string[] }[] = [];
  for (const { plan } of ranked) {
    const line = sampled(plan.legs);
    const twin = kept.find((k) => sameTechniques(k.plan.legs, plan.legs) && sameLine(k.line, line));
    if (!twin) kept.push({ plan, line, alike: [] });
    else {
      const differs = differenceOf(planning, twin.plan.legs, plan.legs);
      if (differs !== '' && !twin.alike.includes(differs)) twin.alike.push(differs);
    }
  }
  return kept.map(({ plan, alike }) => ({ ...plan, alike: alike.slice(0, 4) }));
}

function sampled(legs: readonly Leg[]): Point[] {
  const line = routeLine(legs);
  return lineSteps(line, Math.min(120, Math.max(4, Math.round(lineLength(line) / 40))));
}

function sameLine(a: readonly Point[], b: readonly Point[]): boolean {
  return near(a, b) >= SAME_SHARE && near(b, a) >= SAME_SHARE;
}

function near(a: readonly Point[], b: readonly Point[]): number {
  let inside = 0;
  for (const p of a) if (b.some((q) => distance(p, q) <= BESIDE)) inside++;
  return inside / a.length;
}

/** The endgame decides: its techniques and lines must agree, and so must what it sets out from. */
function sameTechniques(a: readonly Leg[], b: readonly Leg[]): boolean {
  return endKey(a) === endKey(b);
}

function endKey(legs: readonly Leg[]): string {
  return legs
    .slice(-2)
    .map((leg) => `${leg.technique === 'sight' ? 'bearing' : leg.technique} ${leg.line ?? ''}`)
    .join(', ');
}

/** What one plan does otherwise than another, in a few words. */
export function differenceOf(planning: Planning, kept: readonly Leg[], other: readonly Leg[]): string {
  const words: string[] = [];
  const a = kept.findLast((l) => l.technique === 'aim-off');
  const b = other.findLast((l) => l.technique === 'aim-off');
  if (a && b && (a.side !== b.side || Math.abs(a.offsetMetres! - b.offsetMetres!) >= 10)) {
    words.push(`aiming off ${Math.round(b.offsetMetres!)} m to the ${b.side}`);
  }
  const from = (legs: readonly Leg[]) =>
    legs.findLast((l, i) => i < legs.length - 1 && l.toFeature !== undefined)?.toFeature;
  const launch = from(other);
  if (launch !== undefined && launch !== from(kept)) {
    const feature = featureById(planning, launch);
    if (feature) words.push(`setting out from ${nameOf(feature)}`);
  }
  const catching = (legs: readonly Leg[]) => legs.some((l) => l.catching !== undefined);
  if (catching(other) !== catching(kept)) {
    words.push(catching(other) ? 'with a catching feature' : 'without a catching feature');
  }
  return listed(words);
}

/** Short names that tell the picked plans apart: what is followed and where from, and more only where two would be called alike. */
function named(planning: Planning, plans: readonly Plan[]): Plan[] {
  const used = new Set<string>();
  return plans.map((plan) => {
    const names = namesOfPlan(planning, plan.legs);
    let name = names.find((n) => !used.has(n));
    for (let k = 2; name === undefined; k++) if (!used.has(`${names[0]} (${k})`)) name = `${names[0]} (${k})`;
    used.add(name);
    return { ...plan, name };
  });
}

/** Names for a plan, the shortest first. */
function namesOfPlan(planning: Planning, legs: readonly Leg[]): string[] {
  const feature = (id: string | undefined) => (id === undefined ? undefined : featureById(planning, id));
  const lines = [...legs]
    .filter((l) => l.technique === 'handrail')
    .sort((a, b) => lineLength(b.path) - lineLength(a.path))
    .flatMap((l) => feature(l.line) ?? []);
  const longest = lines[0];
  const launch = feature(
    legs.findLast((l, i) => i < legs.length - 1 && l.toFeature !== undefined)?.toFeature,
  );
  const base = [longest ? `by ${nameOf(longest)}` : '', launch ? `from ${nameOf(launch)}` : '']
    .filter((part) => part !== '')
    .join(', ');
  const plain = base === '' ? straightName(legs) : base;
  const second = lines.find((line) => line.id !== longest?.id);
  const aim = legs.findLast((l) => l.technique === 'aim-off' && (l.offsetMetres ?? 0) <= 150);
  const first = feature(
    legs.slice(0, -1).find((l) => l.toFeature !== undefined && l.toFeature !== launch?.id)?.toFeature,
  );
  const open = legs.filter((l) => l.technique !== 'handrail').length;
  return [
    plain,
    ...(aim ? [`${plain}, aiming off ${aim.side}`] : []),
    ...(second ? [`${plain}, with ${nameOf(second)}`] : []),
    ...(first ? [`${plain}, past ${nameOf(first)}`] : []),
    ...(legs.some((l) => l.catching) ? [`${plain}, with a backstop`] : []),
    `${plain}, ${open === 0 ? 'along lines all the way' : `${open} leg${open === 1 ? '' : 's'} in the open`}`,
  ];
}

function straightName(legs: readonly Leg[]): string {
  if (legs.length > 1) return 'over open ground';
  switch (legs[0]!.technique) {
    case 'sight':
      return 'straight, by sight';
    case 'contour':
      return 'round the slope';
    case 'box':
      return 'round the obstacle';
    default:
      return 'straight on one bearing';
  }
}
