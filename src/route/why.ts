import type { MappedGround } from '../cost/mapped-ground.ts';
import { lineLength } from '../math/plane.ts';
import type { Errand } from './drawn.ts';
import type { Leg, Route } from './leg.ts';
import { endText, listed, nameOf } from './says.ts';

/** What the attempts on a route came to, as far as the sentence needs it. Shares are of all attempts. */
export interface RouteResult {
  readonly share: number;
  readonly falseFindShare: number;
  readonly lateShare: number;
  /** Per leg: share whose loss began there, and what it was put down to. */
  readonly legs: readonly {
    readonly lostHereShare: number;
    readonly reasons: Readonly<Partial<Record<string, number>>>;
  }[];
}

const REASON_WORDS: Readonly<Record<string, string>> = {
  ground: 'because the ground is not as mapped',
  'party-day': "by the day's own error of bearing or pace",
  leg: 'by the bearing or the count taken there',
  step: 'by straying on the way',
  seeing: 'because what they look for was passed unseen',
  several: 'by several errors together',
};
/** A leg that loses fewer than this is no risk worth naming. */
const WORTH_NAMING = 0.02;

/** One sentence: what a route relies on, and what it risks, in counts of 100 parties. */
export function whyOf(route: Route, result: RouteResult, ground: MappedGround, errand: Errand): string {
  return `${reliesText(route.legs, ground, errand)}; ${risksText(route.legs, result, ground, errand)}.`;
}

function reliesText(legs: readonly Leg[], ground: MappedGround, errand: Errand): string {
  const metres = (wanted: (leg: Leg) => boolean) =>
    legs.filter(wanted).reduce((sum, leg) => sum + lineLength(leg.path), 0);
  const followed = metres((l) => l.technique === 'handrail');
  const whole = metres(() => true);
  const longest = legs
    .filter((l) => l.technique === 'handrail')
    .sort((a, b) => lineLength(b.path) - lineLength(a.path))
    .slice(0, 2)
    .map((l) => ground.byId.get(l.line ?? ''))
    .flatMap((f) => (f ? [nameOf(f)] : []));
  const things = [...new Set(longest)];
  const launch = legs.findLast((l, i) => i < legs.length - 1 && l.toFeature !== undefined);
  if (launch) things.push(endText(launch, ground, errand));
  const aim = legs.find((l) => l.technique === 'aim-off' && (l.offsetMetres ?? 0) <= 150);
  const aimed = aim?.line === undefined ? undefined : ground.byId.get(aim.line);
  if (aimed) things.push(`meeting ${nameOf(aimed)} on the known side`);
  if (things.length === 0) {
    const seen = legs.every((l) => l.technique === 'sight');
    return seen
      ? 'Relies on seeing the target all the way'
      : `Relies on compass and count alone for ${tens(whole)} m`;
  }
  const share = followed > 0.6 * whole ? `, ${Math.round((100 * followed) / whole)} % of it along lines` : '';
  return `Relies on ${listed([...new Set(things)].slice(0, 3))}${share}`;
}

function risksText(legs: readonly Leg[], result: RouteResult, ground: MappedGround, errand: Errand): string {
  let worst = -1;
  result.legs.forEach((leg, i) => {
    if (leg.lostHereShare > (result.legs[worst]?.lostHereShare ?? WORTH_NAMING)) worst = i;
  });
  const other = otherRisk(result, result.legs[worst]?.lostHereShare ?? 0);
  if (worst < 0) return other ?? 'no single leg loses more than 2 of 100 such parties';
  const leg = legs[worst]!;
  const [reason] =
    Object.entries(result.legs[worst]!.reasons)
      .map(([name, share]) => [name, share ?? 0] as const)
      .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0] ?? [];
  const where =
    worst === legs.length - 1
      ? `the last ${tens(lineLength(leg.path))} m`
      : `the ${tens(lineLength(leg.path))} m to ${endText(leg, ground, errand)}`;
  const why = reason === undefined ? '' : `, mostly ${REASON_WORDS[reason] ?? `by ${reason}`}`;
  const lost = `risks ${where}: about ${hundredths(result.legs[worst]!.lostHereShare)} of 100 such parties go wrong there${why}`;
  return other === null ? lost : `${lost}; ${other}`;
}

/** A risk that no leg shows: the clock, or the wrong thing taken for the right one. */
function otherRisk(result: RouteResult, worst: number): string | null {
  const late = result.lateShare;
  const wrong = result.falseFindShare;
  if (Math.max(late, wrong) < 0.05 || Math.max(late, wrong) < 0.5 * worst) return null;
  return late >= wrong
    ? `about ${hundredths(late)} of 100 come too late`
    : `about ${hundredths(wrong)} of 100 take the wrong thing for it`;
}

function hundredths(share: number): number {
  return Math.max(1, Math.round(100 * share));
}

function tens(metres: number): number {
  return metres >= 100 ? Math.round(metres / 10) * 10 : Math.max(5, Math.round(metres / 5) * 5);
}
