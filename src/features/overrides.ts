import { suggestion } from '../door/did-you-mean.ts';
import { UserError } from '../door/user-error.ts';
import { doubtOf, type MapAge } from './doubt.ts';
import type { Doubt, Feature } from './feature.ts';

/** The same features with a task's overrides and the age of the map in their doubt. An override of an unknown id is a UserError. */
export function applyDoubt(
  features: readonly Feature[],
  overrides: Readonly<Record<string, Partial<Doubt>>>,
  where: string,
  age: MapAge = {},
): Feature[] {
  const ids = new Set(features.map((f) => f.id));
  for (const id of Object.keys(overrides)) {
    if (ids.has(id)) continue;
    throw new UserError({
      what: 'no such feature on this terrain',
      where: `${where}, features`,
      got: `"${id}"${suggestion(id, ids)}`,
      expected: 'the id of a feature',
    });
  }
  return features.map((f) => ({
    ...f,
    doubt: doubtOf(f.kind, f.given, Object.hasOwn(overrides, f.id) ? overrides[f.id] : {}, age),
  }));
}
