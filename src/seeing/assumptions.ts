import type { Assumption } from '../party/assumption.ts';
import type { Law } from './law.ts';

/** How a thing comes to be seen, as statements that figures rest on. */
export function assumptionsOfSeeing(law: Law): Assumption[] {
  return [
    {
      name: 'sweep width from the range of detection',
      value: '1.8, 1.6 or 1.1 × the range for things of high, medium and low visibility',
      mark: 'published',
      source:
        'Koester RJ et al. (2014) Use of the visual range of detection to estimate effective sweep width for land search. Wilderness & Environmental Medicine 25(2):132–142',
    },
    {
      name: 'law of detection',
      value:
        law === 'definite'
          ? 'seen when the walked line comes within half the sweep width'
          : 'chance exp(−(x/b)²) when passed at x metres, one draw per attempt, object and leg',
      mark: 'common practice',
      source: 'common practice, no published source',
    },
    {
      name: 'range of each kind of feature',
      value: 'least of its range in good light, its contrast × visibility, and the line of sight',
      mark: 'common practice',
      source:
        'ranges and contrasts per kind are common practice; decay of contrast with distance after Koschmieder (1924)',
    },
  ];
}
