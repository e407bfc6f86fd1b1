import type { MappedGround } from '../cost/mapped-ground.ts';
import { lineLength } from '../math/plane.ts';
import type { Errand } from './drawn.ts';
import type { Leg, Route } from './leg.ts';
import { endPlace } from './says.ts';
import { type Relied, type RouteWords, routeWords } from './words.ts';

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

/** A leg that loses fewer than this is no risk worth naming. */
const WORTH_NAMING = 0.02;
/** A shorter stretch is said to be this long, metres. */
const LEAST_SAID = 5;

/** One sentence: what a route relies on, and what it risks, in counts of 100 parties. */
export function whyOf(route: Route, result: RouteResult, ground: MappedGround, errand: Errand): string {
  return `${reliesText(route.legs, ground, errand)}; ${risksText(route.legs, result, ground, errand)}.`;
}

function reliesText(legs: readonly Leg[], ground: MappedGround, errand: Errand): string {
  const metres = (wanted: (leg: Leg) => boolean) =>
    legs.filter(wanted).reduce((sum, leg) => sum + lineLength(leg.path), 0);
  const followed = metres((l) => l.technique === 'handrail');
  const whole = metres(() => true);
  const things: Relied['things'][number][] = legs
    .filter((l) => l.technique === 'handrail')
    .sort((a, b) => lineLength(b.path) - lineLength(a.path))
    .slice(0, 2)
    .flatMap((l) => ground.byId.get(l.line ?? '') ?? []);
  const launch = legs.findLast((l, i) => i < legs.length - 1 && l.toFeature !== undefined);
  if (launch) things.push(endPlace(launch, ground, errand));
  const aim = legs.find((l) => l.technique === 'aim-off' && (l.offsetMetres ?? 0) <= 150);
  const aimed = aim?.line === undefined ? undefined : ground.byId.get(aim.line);
  if (aimed) things.push({ is: 'meeting', line: aimed });
  return routeWords(errand.reading).relies({
    things,
    alongPercent: followed > 0.6 * whole ? Math.round((100 * followed) / whole) : null,
    metres: Math.max(LEAST_SAID, whole),
    bySight: legs.every((l) => l.technique === 'sight'),
  });
}

function risksText(legs: readonly Leg[], result: RouteResult, ground: MappedGround, errand: Errand): string {
  const words = routeWords(errand.reading);
  let worst = -1;
  result.legs.forEach((leg, i) => {
    if (leg.lostHereShare > (result.legs[worst]?.lostHereShare ?? WORTH_NAMING)) worst = i;
  });
  const other = otherRisk(result, result.legs[worst]?.lostHereShare ?? 0, words);
  if (worst < 0) return other ?? words.noRisk;
  const leg = legs[worst]!;
  const [reason] =
    Object.entries(result.legs[worst]!.reasons)
      .map(([name, share]) => [name, share ?? 0] as const)
      .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0] ?? [];
  const lost = words.risks({
    last: worst === legs.length - 1,
    metres: Math.max(LEAST_SAID, lineLength(leg.path)),
    end: endPlace(leg, ground, errand),
    count: hundredths(result.legs[worst]!.lostHereShare),
    reason,
  });
  return other === null ? lost : `${lost}; ${other}`;
}

/** A risk that no leg shows: the clock, or the wrong thing taken for the right one. */
function otherRisk(result: RouteResult, worst: number, words: RouteWords): string | null {
  const late = result.lateShare;
  const wrong = result.falseFindShare;
  if (Math.max(late, wrong) < 0.05 || Math.max(late, wrong) < 0.5 * worst) return null;
  return late >= wrong ? words.late(hundredths(late)) : words.wrong(hundredths(wrong));
}

function hundredths(share: number): number {
  return Math.max(1, Math.round(100 * share));
}
