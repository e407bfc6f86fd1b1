import { UserError } from '../door/user-error.ts';
import type { Feature } from '../features/feature.ts';
import type { DrawnLeg } from './drawn.ts';
import { lineOf } from './map-line.ts';
import { featureOf, type Lookup } from './place.ts';

/** The line that a drawn leg names, or one message: no line named, no such feature, no line. */
export function followed(
  id: string | undefined,
  word: 'along' | 'line',
  step: DrawnLeg,
  look: Lookup,
  where: string,
): Feature {
  if (id === undefined) {
    throw new UserError({
      what: `a${word === 'line' ? 'n' : ''} ${step.technique} leg must name its line`,
      where,
      got: `no "${word}"`,
      expected: `${word}: the id of a line feature`,
    });
  }
  const feature = featureOf(look.ground, id, where);
  if (lineOf(feature)) return feature;
  throw new UserError({
    what: 'this feature is no line and cannot be followed',
    where,
    got: `"${id}", a ${feature.kind}`,
    expected: 'a wall, stream, path or another line',
  });
}
