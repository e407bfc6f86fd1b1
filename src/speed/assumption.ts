import type { Assumption } from '../party/assumption.ts';
import type { SpeedModel } from './model.ts';

/** The travel-time model as a statement that figures rest on, its warning with it. */
export function assumptionOfSpeed(model: SpeedModel): Assumption {
  return {
    name: 'travel time',
    value: `${model.name}. ${model.warning}`,
    mark: 'published',
    source: model.source,
  };
}
