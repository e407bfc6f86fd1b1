import { lineLength } from '../math/plane.ts';
import type { Plan } from './choose.ts';
import type { Leg } from './leg.ts';
import { featureById, type Planning } from './planning.ts';
import { nameOf } from './says.ts';

/** Short names that tell the picked plans apart: what is followed and where from, and more only where two would be called alike. */
export function named(planning: Planning, plans: readonly Plan[]): Plan[] {
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
