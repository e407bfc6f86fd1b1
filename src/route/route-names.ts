import type { Called } from '../features/feature.ts';
import { lineLength } from '../math/plane.ts';
import type { Leg } from './leg.ts';
import type { RouteNamed, RouteWords } from './words.ts';

/** The feature of an id that a leg names. */
type FeatureOf = (id: string) => Called | undefined;

/** A name for each way: what is followed and where from, and more only where two would be called alike. */
export function routeNames(
  ways: readonly (readonly Leg[])[],
  featureOf: FeatureOf,
  words: RouteWords,
): string[] {
  const used = new Set<string>();
  return ways.map((legs) => {
    const names = namesOf(legs, featureOf).map(words.routeName);
    let name = names.find((n) => !used.has(n));
    for (let k = 2; name === undefined; k++) if (!used.has(`${names[0]} (${k})`)) name = `${names[0]} (${k})`;
    used.add(name);
    return name;
  });
}

/** What a way may be called after, the shortest first. */
function namesOf(legs: readonly Leg[], featureOf: FeatureOf): RouteNamed[] {
  const feature = (id: string | undefined) => (id === undefined ? undefined : featureOf(id));
  const lines = [...legs]
    .filter((l) => l.technique === 'handrail')
    .sort((a, b) => lineLength(b.path) - lineLength(a.path))
    .flatMap((l) => feature(l.line) ?? []);
  const line = lines[0];
  const from = feature(legs.findLast((l, i) => i < legs.length - 1 && l.toFeature !== undefined)?.toFeature);
  const plain: RouteNamed = { line, from, straight: legs.length > 1 ? 'open' : legs[0]!.technique };
  const second = lines.find((other) => other.id !== line?.id);
  const aim = legs.findLast((l) => l.technique === 'aim-off' && (l.offsetMetres ?? 0) <= 150);
  const first = feature(
    legs.slice(0, -1).find((l) => l.toFeature !== undefined && l.toFeature !== from?.id)?.toFeature,
  );
  const more: RouteNamed['more'][] = [
    undefined,
    aim?.side && { is: 'aim', side: aim.side },
    second && { is: 'with', feature: second },
    first && { is: 'past', feature: first },
    legs.some((l) => l.catching) ? { is: 'backstop' } : undefined,
    { is: 'open', legs: legs.filter((l) => l.technique !== 'handrail').length },
  ];
  return more.flatMap((m, i) => (m === undefined ? (i === 0 ? plain : []) : { ...plain, more: m }));
}
